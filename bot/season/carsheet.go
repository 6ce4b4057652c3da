package season

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"detent/bot/say"
	"detent/bot/sheet"
	"detent/bot/typeset"
	"detent/tuning"
)

// carSheet is what a car's own sheet for an event is made from.
type carSheet struct {
	event tuning.Event
	car   tuning.Case
	sizes tuning.Sizes
	zone  *time.Location
	made  time.Time
	owner string // who drives the car, where others hand the sheet out; then it is silent on where the clicks stand
}

// runs is how many runs of a day the sheet has room for, in the table of
// clicks as in that of what was felt.
const runs = 6

// page is the sheet: where each adjuster starts and stands, room to write
// beside it and to note each run, and what to turn for a complaint, in the
// adjusters of this car.
func (s carSheet) page() sheet.Page {
	return sheet.Page{
		Title: s.title(), Under: s.under(), Made: s.made,
		Rows: [][]sheet.Section{
			{{Head: "The clicks", Table: s.clickTable(), Points: s.clickPoints()}},
			{{Head: "Each run", Table: runTable(), Points: runPoints}},
			{s.card()},
			safetySections(),
		},
		Foot: s.foot(),
	}
}

// title is the car, behind its driver where others hand the sheet out.
func (s carSheet) title() string {
	car := typeset.Name(s.car.Car.Name, "The car")
	if s.owner != "" {
		return typeset.Name(s.owner, "A member") + ": " + car
	}
	return car
}

// under says when and where it is for, and of what car.
func (s carSheet) under() string {
	e := s.event
	e.Place, e.Limit, e.GuideAt = typeset.Name(e.Place, ""), 0, time.Time{} // what is over by then stays out
	under := typeset.Name(e.Name, "The event") + ": " + say.Event(e, s.zone) + "\n" + sayBuild(s.car.Car)
	var missing []string
	for _, name := range []struct{ of, name string }{{"car", s.car.Car.Name}, {"event", e.Name}, {"place", s.event.Place}} {
		if _, ok := typeset.Readable(name.name); !ok && name.name != "" {
			missing = append(missing, name.of)
		}
	}
	switch len(missing) {
	case 0:
		return under
	case 1:
		return under + "\nThe name of the " + missing[0] + " has letters that no font here can print; read it in the message that this sheet came with."
	}
	return under + "\nThe names of the " + say.AllOf(missing) + " have letters that no font here can print; read them in the message that this sheet came with."
}

// sayBuild says what shapes a car's clicks: "Rear drive, mid engine; slicks.".
func sayBuild(car tuning.Car) string {
	build := say.Capital(say.Drive(car.Drive)) + " drive, " + string(car.Engine) + " engine"
	front, rear := car.Dampers[tuning.Front].Ways, car.Dampers[tuning.Rear].Ways
	if front == rear {
		build += fmt.Sprintf("; %s-way dampers", front)
	} else {
		build += fmt.Sprintf("; %s-way dampers at the front, %s-way at the rear", front, rear)
	}
	if car.Tyre != "" {
		build += "; " + string(car.Tyre) + " tyres"
	}
	return build + "."
}

// clickTable is where each adjuster starts and stands, and room for each run.
func (s carSheet) clickTable() sheet.Table {
	car := s.car.Car
	dry, _ := tuning.Baseline(car, tuning.Dry, s.sizes) // its dampers are known here
	wet, _ := tuning.Baseline(car, tuning.Wet, s.sizes)
	table := sheet.Table{Center: true, Roomy: true,
		Widths: []float64{3.2, 1.8, 1.8, 2.2}, Head: []string{"Adjuster", "Start dry", "Start wet", "Stands now"}}
	for run := range runs {
		table.Widths = append(table.Widths, 1.2)
		table.Head = append(table.Head, fmt.Sprintf("Run %d", run+1))
	}
	for axle := range tuning.Axle(tuning.Axles) {
		d, left := car.Dampers[axle], axle.Corners()[0]
		for _, a := range d.Adjusters() {
			row := []string{say.Capital(axle.String()) + " " + d.Label(a), sayPosition(d, a, dry[left][a]), sayPosition(d, a, wet[left][a]), s.stands(axle, a)}
			table.Rows = append(table.Rows, append(row, make([]string, runs)...))
		}
	}
	return table
}

// stands is where an adjuster stands, left and right apart when they differ.
func (s carSheet) stands(axle tuning.Axle, a tuning.Adjuster) string {
	d, left, right := s.car.Car.Dampers[axle], s.car.Setting[axle.Corners()[0]][a], s.car.Setting[axle.Corners()[1]][a]
	switch {
	case s.owner != "":
		return ""
	case s.car.History.Unrecorded:
		return "not said"
	case left != right:
		return fmt.Sprintf("left %d, right %d", d.Counted(a, left), d.Counted(a, right))
	}
	return sayPosition(d, a, left)
}

// clickPoints say how the clicks are counted, what shaped the start and how
// far a step is.
func (s carSheet) clickPoints() []string {
	car := s.car.Car
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
	return []string{
		strings.Join(append([]string{counted}, say.StartReasons(tuning.StartReasons(car, tuning.Dry))...), " "),
		strings.Join(saySteps(ranges, s.sizes), " "),
	}
}

// runTable is room to write by hand what /feel asks, and the pressures.
func runTable() sheet.Table {
	t := sheet.Table{Head: []string{"Run", "What was turned", "FL hot", "FR hot", "RL hot", "RR hot", "Grip", "Entry", "Mid", "Exit", "Hops", "Lap"},
		Widths: []float64{1, 4, 1.3, 1.3, 1.3, 1.3, 1, 1, 1, 1, 1, 1.6}, Roomy: true, Center: true}
	for run := range runs {
		t.Rows = append(t.Rows, append([]string{fmt.Sprint(run + 1)}, make([]string, len(t.Head)-1)...))
	}
	return t
}

// runPoints say what is written into the table of runs, as /feel asks it.
var runPoints = []string{
	"FL to RR: hot tyre pressures, taken as soon as you are in. Unit: bar / psi. Cold, before run 1:  FL ______  FR ______  RL ______  RR ______",
	"Entry, mid, exit: -3 pushes wide (understeer), 0 neutral, +3 comes round (oversteer). Grip: 1 none to 10 the most it has had. Hops: yes or no.",
}

// foot says what the sheet rests on.
func (s carSheet) foot() string {
	stands := "Where it stands is what the record said on " + say.Time(s.made, s.zone) + "."
	if s.owner != "" {
		return "Where it stands now is for the driver to write in. " + footOf(s.sizes)
	}
	if s.car.History.Unrecorded {
		stands = "Where it stands was not on record on " + say.Time(s.made, s.zone) + "."
	}
	return stands + " " + footOf(s.sizes)
}
