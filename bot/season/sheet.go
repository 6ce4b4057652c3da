package season

import (
	"context"
	"fmt"
	"slices"

	"detent/bot"
	"detent/bot/say"
	"detent/bot/sheet"
	"detent/tuning"
)

func giveSheetCommand() bot.Command {
	return declare(bot.Command{Name: "event sheet", Help: "Your own car's sheet for an event, to print", Private: true}, giveSheet)
}

type sheetOptions struct {
	eventOption
	bot.CarOption
}

func giveSheet(ctx context.Context, call call, o sheetOptions) (bot.Reply, error) {
	e, err := call.FindEvent(ctx, call.Book, o.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	name := o.Car
	if name == "" {
		entrants, err := call.Book.Entrants(ctx, e)
		if err != nil {
			return bot.Reply{}, err
		}
		mine := bot.EntriesOf(entrants, call.Owner())
		if len(mine) == 0 {
			return bot.Reply{}, tuning.Problemf(tuning.NotFound, "You are not entered in %s: enter, or name a car for its sheet.", e.Name)
		}
		name = mine[0].Car.Name
	}
	c, err := call.FindCase(ctx, call.Book, name)
	if err != nil {
		return bot.Reply{}, err
	}
	return call.sheetOf(e, c)
}

// sheetOf is a car's own sheet for an event.
func (c call) sheetOf(e tuning.Event, k tuning.Case) (bot.Reply, error) {
	weather := e.Weather
	if weather == "" {
		weather = tuning.Dry
	}
	start, err := tuning.Baseline(k.Car, weather, c.Club.Sizes)
	if err != nil {
		return bot.Reply{}, err
	}
	reply := bot.Reply{
		Title:    k.Car.Name + " at " + e.Name,
		Text:     "Start, " + string(weather) + ":\n" + say.At(k.Car, start),
		Corners:  bot.CornersOf(k.Car, k.Setting.Across(start, k.Car)),
		Notes:    say.Standing(k),
		First:    tuning.Checks,
		Cautions: guideCautions(),
	}
	reply.Files, err = printSheet("sheet.pdf", c.carPage(e, k))
	return reply, err
}

// carPage is the sheet to print: where each adjuster starts and stands, room
// to write beside it, and the symptom card of the car's own drive.
func (c call) carPage(e tuning.Event, k tuning.Case) sheet.Page {
	dry, _ := tuning.Baseline(k.Car, tuning.Dry, c.Club.Sizes) // its dampers are known here
	wet, _ := tuning.Baseline(k.Car, tuning.Wet, c.Club.Sizes)
	clicks := sheet.Table{Center: true, Widths: []float64{3.2, 2, 2, 2.2, 1.2, 1.2, 1.2, 1.2, 1.2},
		Head: []string{"Adjuster", "Start dry", "Start wet", "Stands now", "Run 1", "2", "3", "4", "5"}, Roomy: true}
	for axle := range tuning.Axle(tuning.Axles) {
		d, left := k.Car.Dampers[axle], axle.Corners()[0]
		for _, a := range d.Adjusters() {
			clicks.Rows = append(clicks.Rows, []string{
				say.Capital(axle.String()) + " " + d.Label(a), sayPosition(d, a, dry[left][a]), sayPosition(d, a, wet[left][a]),
				sayStand(k, axle, a), "", "", "", "", ""})
		}
	}
	return sheet.Page{
		Title: k.Car.Name, Under: e.Name + ": " + say.Event(e, c.Zone()), Made: c.Now(),
		Rows: [][]sheet.Section{
			{{Head: "The clicks", Table: clicks, Points: c.clickPoints(k.Car)}},
			{cardSection([]tuning.Drive{k.Car.Drive})},
			mindSections(),
			{{Head: "How it felt", Table: feelTable()}},
		},
		Foot: foot,
	}
}

// clickPoints say how the clicks are counted, what shaped the start and how
// far a step is.
func (c call) clickPoints(car tuning.Car) []string {
	front, rear := car.Dampers[tuning.Front].Count, car.Dampers[tuning.Rear].Count
	counted := fmt.Sprintf("Counted from %s; in brackets the other way.", front)
	if front != rear {
		counted = fmt.Sprintf("Counted from %s at the front and from %s at the rear; in brackets the other way.", front, rear)
	}
	var ranges []int
	for _, d := range car.Dampers {
		for _, a := range d.Adjusters() {
			if !slices.Contains(ranges, d.Range[a]) {
				ranges = append(ranges, d.Range[a])
			}
		}
	}
	slices.Sort(ranges)
	points := append([]string{counted}, tuning.BaselineRules(car, tuning.Dry)...)
	return append(points, saySteps(ranges, c.Club.Sizes)...)
}

// sayPosition is a position as it is printed: "16 (14)", in the member's own
// counting and the other way.
func sayPosition(d tuning.Damper, a tuning.Adjuster, clicks int) string {
	own := d.Counted(a, clicks)
	return fmt.Sprintf("%d (%d)", own, d.Range[a]-own)
}

// sayStand is where an adjuster stands, left and right apart when they differ.
func sayStand(k tuning.Case, axle tuning.Axle, a tuning.Adjuster) string {
	d, left, right := k.Car.Dampers[axle], k.Setting[axle.Corners()[0]][a], k.Setting[axle.Corners()[1]][a]
	switch {
	case k.History.Unrecorded:
		return "not said"
	case left != right:
		return fmt.Sprintf("left %d, right %d", d.Counted(a, left), d.Counted(a, right))
	}
	return sayPosition(d, a, left)
}

// feelTable is room to write by hand what /feel asks.
func feelTable() sheet.Table {
	t := sheet.Table{Head: []string{"Run", "What was turned", "Grip, 1 to 10", "Entry, -3 to 3", "Mid", "Exit", "Hops", "Lap"},
		Widths: []float64{1, 5, 2, 2, 2, 2, 1, 2}, Roomy: true, Center: true}
	for run := range 6 {
		t.Rows = append(t.Rows, []string{fmt.Sprint(run + 1), "", "", "", "", "", "", ""})
	}
	return t
}
