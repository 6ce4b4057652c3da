package notebook

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"slices"
	"time"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
	"detent/tuning/learn"
)

func seasonCommand() bot.Command {
	return declare(bot.Command{Name: "car season", Help: "A year of a car on one page: clicks, grip, best laps, what helped", Private: true}, showSeason)
}

type seasonOptions struct {
	bot.CarOption
	Year int `name:"year" help:"the year; this one when not said" min:"2000" max:"2100"`
}

// carYear is a year of a car, as its page and picture are made from.
type carYear struct {
	year     int
	car      tuning.Car
	season   tuning.CarSeason
	effects  []learn.Effect // of what was tried in the year, surest first
	zone     *time.Location
	imperial bool
	made     time.Time
}

// showSeason shows a car's year as a picture and as a page to print.
func showSeason(ctx context.Context, call call, o seasonOptions) (bot.Reply, error) {
	k, err := call.FindCase(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	zone := call.Zone()
	y := carYear{year: cmp.Or(o.Year, call.Now().In(zone).Year()), car: k.Car, zone: zone, imperial: call.Imperial(), made: call.Now()}
	from, to := calendar.Year(y.year, zone)
	if y.season, err = call.Book.CarSeason(ctx, k.Car, from, to); err != nil {
		return bot.Reply{}, err
	}
	if y.season.Empty() {
		return bot.Reply{}, y.nothing()
	}
	if y.effects, err = call.triedIn(ctx, k, from, to); err != nil {
		return bot.Reply{}, err
	}
	return y.reply()
}

// triedIn is what the record says of the remedies that were tried on a car from a
// moment to another.
func (c call) triedIn(ctx context.Context, k tuning.Case, from, to time.Time) ([]learn.Effect, error) {
	tries, err := c.Book.TriesOf(ctx, k.Car, from, to)
	if err != nil || len(tries) == 0 {
		return nil, err
	}
	evidence, err := c.Book.LearnedAll(ctx, k.Car)
	if err != nil {
		return nil, err
	}
	return slices.DeleteFunc(evidence.Effects(k.Car, k.History, c.Club.Sizes), func(e learn.Effect) bool {
		return !slices.ContainsFunc(tries, func(t learn.Try) bool { return t.Key == e.Key })
	}), nil
}

// nothing refuses a year without anything, with a button for the nearest that has
// something.
func (y carYear) nothing() error {
	p := bot.Problemf(tuning.NotFound, "Nothing was turned, felt or noted on %s in %d.", y.car.Name, y.year)
	if near := cmp.Or(y.season.Earlier, y.season.Later); !near.IsZero() {
		p.Actions = []bot.Action{y.button(near)}
	}
	return p
}

// button asks for the year of a moment.
func (y carYear) button(at time.Time) bot.Action {
	year := at.In(y.zone).Year()
	return bot.Button(fmt.Sprint(year), fmt.Sprintf("/car season year:%d", year), bot.OfCar(y.car))
}

// reply is the message with the year's picture and its page.
func (y carYear) reply() (bot.Reply, error) {
	return y.message().WithPage(fmt.Sprintf("season-%d.pdf", y.year), y.picture(), func(png []byte, pdf io.Writer) error { return y.page(png).Write(pdf) })
}

// message is the year in a few lines, with what leads on from there.
func (y carYear) message() bot.Reply {
	reply := bot.Reply{
		Title: fmt.Sprintf("%s in %d: %s", y.car.Name, y.year, say.YearOfCar(y.season)),
		View:  bot.View{Size: phone.List, Quiet: true, Picture: true},
	}
	if len(y.effects) > 0 {
		reply.Actions = append(reply.Actions, bot.Button("What is learned", "/learned", bot.OfCar(y.car)))
	}
	reply.Actions = append(reply.Actions, bot.Button("The log", "/log", bot.OfCar(y.car)))
	for _, at := range []time.Time{y.season.Earlier, y.season.Later} {
		if !at.IsZero() {
			reply.Actions = append(reply.Actions, y.button(at))
		}
	}
	return y.told(reply)
}

// What a message shows; the page has more.
const (
	fewLaps    = 4
	fewEffects = 2
	placeWidth = 24 // columns of a place's name
)

// told puts into the message what matters most of the year, as far as it has room,
// and all else into the notes.
func (y carYear) told(reply bot.Reply) bot.Reply {
	reply.Text = "The page to print has it all."
	if grip := say.GripOver(y.season.Feels, y.zone); grip != "" {
		reply.Text = grip + ". " + reply.Text
	}
	laps, helped, failed := y.bestLaps(), y.helped(true), y.helped(false)
	first := func(lines []string, most int) []string { return lines[:min(len(lines), most)] }
	rest := func(lines []string, most int) []string { return lines[min(len(lines), most):] }
	reply = reply.WithLines(slices.Concat(first(laps, fewLaps), first(helped, fewEffects), first(failed, fewEffects))...)
	reply.Notes = slices.Concat(reply.Notes, rest(laps, fewLaps), rest(helped, fewEffects), rest(failed, fewEffects), y.notes())
	return reply
}

// bestLaps are the quickest laps, one in each line.
func (y carYear) bestLaps() []string {
	var lines []string
	for _, l := range y.season.BestLaps() {
		l.Place = phone.Clip(l.Place, placeWidth)
		lines = append(lines, say.BestLap(l, y.zone)+".")
	}
	return lines
}

// helped says what helped, or what did not, by all that is on record.
func (y carYear) helped(good bool) []string {
	var lines []string
	for _, e := range y.effects {
		if good == e.Told.Helps() {
			lines = append(lines, say.Effect(y.car, e)+".")
		}
	}
	return lines
}

// notes are what was noted, and said of runs, newest first.
func (y carYear) notes() []string {
	type note struct {
		at   time.Time
		text string
	}
	var all []note
	for _, n := range y.season.Notes {
		all = append(all, note{n.At, say.CarNote(n, y.imperial)})
	}
	for _, f := range y.season.Feels {
		if f.Notes != "" {
			all = append(all, note{f.At, fmt.Sprintf("grip %d, “%s”", f.Grip, f.Notes)})
		}
	}
	slices.SortStableFunc(all, func(a, b note) int { return b.at.Compare(a.at) })
	lines := make([]string, len(all))
	for i, n := range all {
		lines[i] = say.Day(n.at, y.zone) + ": " + n.text
	}
	return lines
}
