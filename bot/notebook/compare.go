package notebook

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
)

func compareClicksCommand() bot.Command {
	c := declare(bot.Command{Name: "clicks compare", Help: "Saved clicks beside today's or others, and how each felt", Private: true}, compareClicks)
	c = bot.Suggesting(c, "name", func(ctx context.Context, asked bot.Call, book bot.Book, o compareOptions, _ string) ([]bot.Suggestion, error) {
		return offerSaved(ctx, asked, book, o.Car)
	})
	return bot.Suggesting(c, "with", func(ctx context.Context, asked bot.Call, book bot.Book, o compareOptions, _ string) ([]bot.Suggestion, error) {
		saved, err := offerSaved(ctx, asked, book, o.Car)
		return append([]bot.Suggestion{{Value: todayWord, Label: "today's clicks"}}, saved...), err
	})
}

type compareOptions struct {
	keptOptions
	With string `name:"with" help:"other saved clicks, today's when not said"`
	bot.MoreOption
}

func compareClicks(ctx context.Context, call call, o compareOptions) (bot.Reply, error) {
	c, err := call.FindCase(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	if err := bot.RequireDampers(c.Car); err != nil {
		return bot.Reply{}, err
	}
	kept, err := call.FindKept(ctx, call.Book, c.Car, "name", o.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	with, err := call.other(ctx, c, o.With)
	if err != nil {
		return bot.Reply{}, err
	}
	if with.ID == kept.ID {
		p := bot.Problemf(tuning.Invalid, "Those are the same saved clicks: compare %s with others, or with today's.", say.KeptName(kept))
		p.Actions = []bot.Action{compareButton("With today's", c.Car, kept), savedButton(c.Car)}
		return bot.Reply{}, p
	}
	reply := newPair(c, kept, with).say(call)
	if with.ID == 0 && c.History.Unrecorded {
		reply.View.Line = assumedStart
		reply.Actions = append(reply.Actions, whereTheyStand(c.Car))
	}
	line := "/clicks compare"
	about := []bot.Named{bot.OfKept(kept), bot.OfCar(c.Car)}
	if with.ID != 0 {
		about = append(about, bot.OfKept(with).As("with"))
	}
	return o.Paged(reply, line, about...), nil
}

// other is what clicks are compared with: others that were saved, or those of
// today, which have no number.
func (c call) other(ctx context.Context, k tuning.Case, name string) (tuning.Kept, error) {
	if name = strings.TrimSpace(name); name != "" && !strings.EqualFold(name, todayWord) {
		return c.FindKept(ctx, c.Book, k.Car, "with", name)
	}
	felt, err := c.Book.FeltToday(ctx, k.Car)
	return tuning.Kept{Car: k.Car.ID, Setting: k.Setting, Dampers: k.Car.Dampers, Felt: felt}, err
}

// pair is two settings side by side, on the same dampers.
type pair struct {
	car        tuning.Car // with those dampers
	kept, with tuning.Kept
	a, b       tuning.Setting // where they stand there
	roundings  []string
}

// newPair puts two settings side by side: on the dampers that both were saved
// on, or else carried to today's.
func newPair(c tuning.Case, kept, with tuning.Kept) pair {
	p := pair{car: c.Car, kept: kept, with: with, a: kept.Setting, b: with.Setting}
	if kept.Dampers == with.Dampers {
		p.car.Dampers = kept.Dampers
		return p
	}
	for _, side := range []struct {
		from tuning.Kept
		to   *tuning.Setting
	}{{kept, &p.a}, {with, &p.b}} {
		var carried []tuning.Carried
		*side.to, carried = tuning.Carry(side.from.Setting, side.from.Dampers, c.Car, c.Setting)
		for _, line := range say.Roundings(c.Car, carried) {
			p.roundings = append(p.roundings, nameOf(side.from)+", "+say.Small(line))
		}
	}
	return p
}

// nameOf is what a side of a pair is called.
func nameOf(k tuning.Kept) string {
	if k.ID == 0 {
		return todayWord
	}
	return "“" + phone.Clip(k.Name, phone.NameColumns) + "”"
}

func (p pair) say(call call) bot.Reply {
	reply := bot.Reply{Actions: p.actions()}
	names := nameOf(p.kept) + " and " + nameOf(p.with)
	lines := []string{p.sayFelt(p.kept, call)}
	if p.with.ID != 0 || p.with.Felt != nil || p.a != p.b {
		lines = append(lines, p.sayFelt(p.with, call))
	}
	if turns := p.b.Toward(p.a, p.car); len(turns) > 0 {
		reply.Title = fmt.Sprintf("%s differ in %s", names, say.Count(len(turns), "place", "places"))
		lines = append(lines, fmt.Sprintf("From %s to %s: %s.", nameOf(p.with), nameOf(p.kept), say.Turns(p.car, turns)),
			fmt.Sprintf("In the table %s / %s, %s.", nameOf(p.kept), nameOf(p.with), countedFrom(p.car)))
		reply.View.Grid, reply.View.NoTable = strings.TrimRight(p.table(), "\n"), true
	} else {
		reply.Title = names + " are the same clicks"
	}
	reply.Corners = bot.CornersOf(p.car, p.b.Across(p.a, p.car))
	reply.Text = phone.Clip(p.car.Name, phone.NameColumns) + ". " + strings.Join(lines, "\n")
	reply.Notes = p.roundings
	return reply
}

// actions load either side, where it is not how the car stands.
func (p pair) actions() (actions []bot.Action) {
	for _, k := range []tuning.Kept{p.kept, p.with} {
		if k.ID != 0 && (p.with.ID != 0 || p.a != p.b) {
			actions = append(actions, loadButton("Load "+phone.Clip(k.Name, labelColumns), p.car, k))
		}
	}
	return append(actions, savedButton(p.car))
}

// sayFelt says what was felt on a side, and when it was saved.
func (p pair) sayFelt(k tuning.Kept, call call) string {
	felt := say.FeltWith(k.Felt, call.Imperial()) + "."
	if k.ID == 0 {
		return say.Capital(todayWord) + ": " + felt
	}
	return say.Capital(nameOf(k)) + ", " + say.KeptDay(k, call.Zone()) + ": " + felt
}

// table shows where both stand: "16/13" where they differ.
func (p pair) table() string {
	rows := [][]string{{"", "FL", "FR", "RL", "RR"}}
	for a := range tuning.Adjuster(tuning.Adjusters) {
		row := []string{a.String(), "-", "-", "-", "-"}
		for c := range tuning.Corner(tuning.Corners) {
			if d := p.car.Dampers[c.Axle()]; d.Has(a) {
				row[1+c] = strconv.Itoa(d.Counted(a, p.a[c][a]))
				if p.a[c][a] != p.b[c][a] {
					row[1+c] += "/" + strconv.Itoa(d.Counted(a, p.b[c][a]))
				}
			}
		}
		if slices.ContainsFunc(row[1:], func(cell string) bool { return cell != "-" }) {
			rows = append(rows, row)
		}
	}
	return phone.Grid(rows)
}

// countedFrom says which stop the positions of a car are counted from.
func countedFrom(car tuning.Car) string {
	front, rear := car.Dampers[tuning.Front].Count, car.Dampers[tuning.Rear].Count
	if front == rear {
		return "counted from " + string(front)
	}
	return fmt.Sprintf("front counted from %s, rear from %s", front, rear)
}
