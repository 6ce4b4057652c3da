package season

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

// guide is what an event's guide is made from.
type guide struct {
	event   tuning.Event
	zone    *time.Location
	drives  []tuning.Drive            // of the cars that come
	engines map[tuning.Drive][]string // where those have their engines
	ranges  []int                     // clicks between the stops, on the sheet
	present []int                     // those that come, the commonest first
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
	g.ranges, g.present = rangesOf(seen), slices.Collect(maps.Keys(seen))
	slices.SortFunc(g.present, func(a, b int) int { return cmp.Or(seen[b]-seen[a], a-b) })
	if len(g.present) == 0 {
		g.present = usualRanges
	}
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

// printed is the weather that the sheet's figures are for: both kinds where
// nobody can tell which it will be.
func (g guide) printed() []tuning.Weather {
	switch g.event.Weather {
	case tuning.Wet:
		return []tuning.Weather{tuning.Wet}
	case tuning.Either:
		return []tuning.Weather{tuning.Dry, tuning.Wet}
	}
	return []tuning.Weather{tuning.Dry}
}

// place is where an adjuster of so many clicks starts on an axle of a car of
// some drive in a weather, as it is printed: "16 (14)", from hard and from soft.
func (g guide) place(drive tuning.Drive, axle tuning.Axle, n int, weather tuning.Weather) string {
	return sayPosition(oneWay(n), tuning.Rebound, g.start(drive, axle, n, weather))
}

// start is the same in clicks from full soft, in a weather.
func (g guide) start(drive tuning.Drive, axle tuning.Axle, n int, weather tuning.Weather) int {
	car := tuning.Car{Drive: drive, Dampers: [tuning.Axles]tuning.Damper{oneWay(n), oneWay(n)}}
	return tuning.AxleStart(car, axle, weather, g.sizes)[0].To
}

// oneWay is a damper whose adjuster has n clicks.
func oneWay(n int) tuning.Damper {
	d := tuning.Damper{Ways: 1, Count: tuning.FromHard, Moves: tuning.MovesRebound}
	d.Range[tuning.Rebound] = n
	return d
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
			var places []string
			for _, w := range g.printed() {
				place := g.place(drive, tuning.Front, n, w) + " / " + g.place(drive, tuning.Rear, n, w)
				if len(g.printed()) > 1 {
					place = string(w) + " " + place
				}
				places = append(places, place)
			}
			lines = append(lines, fmt.Sprintf("%d: %s", n, strings.Join(places, ", ")))
		}
	}
	return lines
}

// changes say what the weather and the surface change. Common practice, no
// published source; what the surface changes is from memory of the trade.
func (g guide) changes() []string {
	var lines []string
	switch g.event.Weather {
	case tuning.Wet:
		lines = []string{"If it dries: every adjuster a step stiffer than that."}
	case tuning.Dry, "":
		lines = []string{"If it is wet: every adjuster a step softer than that."}
	}
	if g.event.Surface != tuning.Smooth {
		lines = append(lines, "Bumpy: it hops sooner, so the grip search ends sooner; in doubt stay softer.")
	}
	if g.event.Surface != tuning.Bumpy {
		lines = append(lines, "Smooth: it takes more damping before it hops and warns less; stop at the first sign.")
	}
	return append(lines, "Slicks with real downforce, road use, torque at one axle: /baseline has your own start.")
}

// reply is the guide: a message of at most 25 lines, and the sheet that has the
// symptom card.
func (g guide) reply(now time.Time) (reply bot.Reply, err error) {
	notes := slices.Concat(g.starts(), g.changes(), saySteps(g.ranges, g.sizes), []string{"Symptom card. " + starred})
	for _, l := range symptomCard(g.drives) {
		notes = append(notes, l[0]+": "+say.Small(l[1]))
	}
	reply = bot.Reply{
		Title:    "Guide for " + g.event.Name,
		Text:     g.text(),
		First:    say.Checks(tuning.Checks),
		Notes:    notes,
		Cautions: guideCautions(),
		Actions:  []bot.Action{bot.Button("My car's sheet", "/event sheet", bot.OfEvent(g.event)), bot.Button("Enter", "/event enter", bot.OfEvent(g.event))},
		View:     bot.View{Size: phone.Guide, Quiet: true, Care: bot.Care{Turns: true}},
	}
	reply.View.Grid = g.grid(reply)
	reply.Files, err = printSheet("guide.pdf", g.page(now))
	return reply, err
}
