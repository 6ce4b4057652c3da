package bot

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
	"time"

	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

func guideCommands() []Command {
	return []Command{
		{Name: "event guide", Help: "Post the guide of an event: where to start, and the symptom card", Role: tuning.OrganiserRole, Writes: true, Answer: postGuide,
			Options: []Option{whichEvent, {Name: "again", Help: "post it though it has not changed", Kind: Choice, Choices: []string{"yes"}}}},
		{Name: "event summary", Help: "What came of an event: entrants, answers, complaints, what helped", Role: tuning.OrganiserRole, Private: true, Answer: summarise,
			Options: []Option{{Name: "name", Help: "the event; the last when not said", Source: FromEvents}}},
		{Name: "event sheet", Help: "Your own car's sheet for an event, to print", Private: true, Options: []Option{whichEvent, carOption}, Answer: giveSheet},
	}
}

// guide is what an event's guide is made from.
type guide struct {
	event   tuning.Event
	zone    *time.Location
	drives  []tuning.Drive            // of the cars that come
	engines map[tuning.Drive][]string // where those have their engines
	ranges  []int                     // clicks between the stops
	sizes   tuning.Sizes
}

// usualRanges are the numbers of clicks that most adjusters have. From memory.
var usualRanges = []int{7, 12, 16, 20, 24, 30, 40}

// mostRanges is how many numbers of clicks a guide has room for.
const mostRanges = 12

// guideOf gathers what the cars of an event call for.
func guideOf(e tuning.Event, entrants []tuning.Entrant, club tuning.Club) guide {
	g := guide{event: e, zone: calendar.ClubZone(club), sizes: club.Sizes, engines: map[tuning.Drive][]string{}}
	seen := map[int]int{}
	for _, entrant := range entrants {
		car := entrant.Car
		if !slices.Contains(g.drives, car.Drive) {
			g.drives = append(g.drives, car.Drive)
		}
		if engine := string(car.Engine); !slices.Contains(g.engines[car.Drive], engine) {
			g.engines[car.Drive] = append(g.engines[car.Drive], engine)
		}
		for _, d := range car.Dampers {
			for _, a := range d.Adjusters() {
				seen[d.Range[a]]++
			}
		}
	}
	slices.Sort(g.drives)
	for _, engines := range g.engines {
		slices.Sort(engines)
	}
	g.ranges = rangesOf(seen)
	return g
}

// rangesOf lists the usual numbers of clicks and the others that are present,
// as many as there is room for, the commonest first to get it.
func rangesOf(seen map[int]int) []int {
	ranges := slices.Clone(usualRanges)
	var others []int
	for n := range seen {
		if !slices.Contains(ranges, n) {
			others = append(others, n)
		}
	}
	slices.SortFunc(others, func(a, b int) int {
		if seen[a] != seen[b] {
			return seen[b] - seen[a]
		}
		return a - b
	})
	ranges = append(ranges, others[:min(len(others), mostRanges-len(ranges))]...)
	slices.Sort(ranges)
	return ranges
}

// weather is the one the guide's figures are for.
func (g guide) weather() tuning.Weather {
	if g.event.Weather == tuning.Wet {
		return tuning.Wet
	}
	return tuning.Dry
}

// place is where an adjuster of so many clicks starts on an axle of a car of
// some drive, as it is printed: "16 (14)", from hard and from soft.
func (g guide) place(drive tuning.Drive, axle tuning.Axle, n int) string {
	d := tuning.Damper{Ways: 1, Count: tuning.FromHard, Moves: tuning.MovesRebound}
	d.Range[tuning.Rebound] = n
	car := tuning.Car{Drive: drive, Dampers: [tuning.Axles]tuning.Damper{d, d}}
	return place(d, tuning.Rebound, tuning.AxleStart(car, axle, g.weather(), g.sizes)[0].To)
}

// kind names the cars of a drive that come: "Rear drive, mid or rear engine".
func (g guide) kind(drive tuning.Drive) string {
	return say.Capital(say.Drive(drive)) + " drive, " + say.OneOf(g.engines[drive]) + " engine"
}

// starts are the start positions as lines of text.
func (g guide) starts() []string {
	var lines []string
	for _, drive := range g.drives {
		lines = append(lines, g.kind(drive)+": front / rear")
		for _, n := range g.ranges {
			lines = append(lines, fmt.Sprintf("%d: %s / %s", n,
				g.place(drive, tuning.Front, n), g.place(drive, tuning.Rear, n)))
		}
	}
	return lines
}

// card is the symptom card as pairs of a complaint and what to try. What the
// trade is less sure of has a star.
func card(drives []tuning.Drive) [][]string {
	var lines [][]string
	for _, l := range tuning.Card(drives) {
		complaint := l.What.Short()
		switch l.Where {
		case tuning.Entry:
			complaint += ", entry or mid"
		case tuning.Exit:
			complaint += ", exit"
		}
		if len(l.Drives) < len(drives) {
			complaint += " (" + say.Drives(l.Drives) + " drive)"
		}
		var try []string
		if l.First != "" {
			try = append(try, l.First)
		}
		for _, t := range l.Try {
			if t.Confidence == tuning.WeakerPractice {
				t.Say += " *"
			}
			try = append(try, t.Say)
		}
		lines = append(lines, []string{say.Capital(complaint), say.Capital(strings.Join(try, "; "))})
	}
	return lines
}

// starred says how the symptom card is read.
const starred = "Turn the first; if that is not it, the other. A step where nothing else is said. * The trade is less sure."

// steps say how far a step and the back-off are, for adjusters of the given
// clicks.
func steps(ranges []int, sizes tuning.Sizes) []string {
	return []string{
		"A step: " + byClicks(ranges, sizes.Step) + ". Slightly: " + say.Count(sizes.Slight, "click", "clicks") + ".",
		"The back-off, once it hops: " + byClicks(ranges, sizes.BackOff) + ".",
	}
}

// byClicks says a number of clicks that hangs on the range: "1 click of 7 or
// 12, 2 of 16".
func byClicks(ranges []int, size func(n int) int) string {
	var sizes []int
	of := map[int][]string{}
	for _, n := range ranges {
		s := size(n)
		if of[s] == nil {
			sizes = append(sizes, s)
		}
		of[s] = append(of[s], fmt.Sprint(n))
	}
	words := make([]string, len(sizes))
	for i, s := range sizes {
		words[i] = fmt.Sprintf("%d of %s", s, say.OneOf(of[s]))
		if i == 0 {
			words[i] = say.Count(s, "click", "clicks") + " of " + say.OneOf(of[s])
		}
	}
	return strings.Join(words, ", ")
}

// changes say what the weather and the surface change. Common practice, no
// published source; what the surface changes is from memory of the trade.
func (g guide) changes() []string {
	lines := []string{"If it is wet: every adjuster a step softer than that."}
	if g.weather() == tuning.Wet {
		lines = []string{"If it dries: every adjuster a step stiffer than that."}
	}
	if g.event.Surface != tuning.Smooth {
		lines = append(lines, "Bumpy: it hops sooner, so the grip search ends sooner; in doubt stay softer.")
	}
	if g.event.Surface != tuning.Bumpy {
		lines = append(lines, "Smooth: it takes more damping before it hops and warns less; stop at the first sign.")
	}
	return append(lines, "Slicks with real downforce, road use, torque at one axle: /baseline has your own start.")
}

// guideCautions go with every guide.
func guideCautions() []string {
	return say.Cautions([]tuning.Caution{tuning.Hot, tuning.Gently, tuning.EaseIn, tuning.Closed, tuning.Broken})
}

// reply is the guide in pieces that fit a message, with the sheet to print.
func (g guide) reply(now time.Time) (reply Reply, err error) {
	head := "Start, for each number of clicks, from hard (from soft), " + string(g.weather()) + ":"
	lines := slices.Concat([]string{say.Event(g.event, g.zone), head}, g.starts(), g.changes())
	notes := append(steps(g.ranges, g.sizes), "Symptom card. "+starred)
	for _, l := range card(g.drives) {
		notes = append(notes, l[0]+": "+say.Small(l[1]))
	}
	reply = Reply{
		Title:    "Guide for " + g.event.Name,
		Text:     strings.Join(lines, "\n"),
		First:    tuning.Checks,
		Notes:    notes,
		Cautions: guideCautions(),
		Actions:  []Action{{"My own sheet", aimEvent("/event sheet", g.event)}},
	}
	reply.Files, err = printed("guide.pdf", g.page(now))
	return reply, err
}

// hash tells a guide from one that says something else.
func hash(r Reply) string {
	sum := sha256.New()
	for _, part := range [][]string{{r.Title, r.Text}, r.First, r.Notes, r.Cautions} {
		fmt.Fprintf(sum, "%q\n", part)
	}
	return hex.EncodeToString(sum.Sum(nil)[:8])
}

func postGuide(ctx context.Context, call Call) (Reply, error) {
	e, entrants, err := call.openEvent(ctx)
	if err != nil {
		return Reply{}, err
	}
	if len(entrants) == 0 {
		return Reply{}, tuning.Problemf(tuning.Invalid, "Nobody has entered %s yet: the guide is made from the cars that come.", e.Name)
	}
	reply, err := guideOf(e, entrants, call.Club).reply(call.now())
	if err != nil {
		return Reply{}, err
	}
	if hash(reply) == e.GuideHash && !call.Args.Has("again") {
		return Reply{Title: "The guide of " + e.Name + " has not changed since it was posted", Text: "It is posted again only when it has.",
			Actions: []Action{{"Post it again", aimEvent("/event guide again:yes", e)}}}, nil
	}
	e.GuideHash = hash(reply)
	_, err = call.Book.SaveEvent(ctx, e)
	return reply, err
}

// Guide is the guide of an event to come, for posting by itself, and what
// tells it from another. That is "" when there is nothing to post: it is as it
// was last posted, or nobody has entered.
func Guide(ctx context.Context, book Book, event int64, now time.Time) (guide Reply, hashed string, err error) {
	club, err := book.Club(ctx)
	if err != nil {
		return Reply{}, "", err
	}
	events, err := book.Events(ctx, now)
	if err != nil {
		return Reply{}, "", err
	}
	i := slices.IndexFunc(events, func(e tuning.Event) bool { return e.ID == event && !e.Cancelled })
	if i < 0 {
		return Reply{}, "", nil
	}
	entrants, err := book.Entrants(ctx, events[i])
	if err != nil || len(entrants) == 0 {
		return Reply{}, "", err
	}
	if guide, err = guideOf(events[i], entrants, club).reply(now); err != nil || hash(guide) == events[i].GuideHash {
		return Reply{}, "", err
	}
	return guide, hash(guide), nil
}
