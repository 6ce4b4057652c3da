package notebook

import (
	"cmp"
	"fmt"
	"strings"

	"detent/bot/phone"
	"detent/bot/say"
	"detent/bot/sheet"
	"detent/bot/typeset"
	"detent/tuning"
	"detent/tuning/unit"
)

// What one page has room for in letters that can be read.
const (
	pageLaps    = 12
	pageEvents  = 16
	pageEffects = 5
	pageNotes   = 8
	noteWidth   = 150 // columns
	nameWidth   = 12  // of an event or a place, in ems: a line of a table
)

// page is the year as a page to print, with its picture.
func (y carYear) page(png []byte) sheet.Page {
	rows := [][]sheet.Section{{{Head: "Clicks and grip, from first to last", Picture: png, Wide: 1.7}, y.lapSection()}}
	if len(png) == 0 {
		rows = [][]sheet.Section{{y.lapSection()}}
	}
	if len(y.season.Events) > 0 {
		rows = append(rows, []sheet.Section{y.eventSection()})
	}
	helped := sheet.Listed("What helped", y.helped(true), pageEffects, "And %d more: /learned has them.", "Nothing that was turned and judged has helped yet.")
	failed := sheet.Listed("What did not", y.helped(false), pageEffects, "And %d more: /learned has them.", "Nothing that was turned and judged has failed.")
	if len(y.effects) == 0 {
		failed.Points, helped.Points = nil, []string{"Nothing was judged: a turn is, by a /feel after it with better or with the balance marked."}
		rows = append(rows, []sheet.Section{helped})
	} else {
		rows = append(rows, []sheet.Section{helped, failed})
	}
	if notes := y.notes(); len(notes) > 0 {
		for i, n := range notes[:min(len(notes), pageNotes)] {
			notes[i] = typeset.Name(phone.Clip(n, noteWidth), "A note in letters that no font here can print.")
		}
		rows = append(rows, []sheet.Section{sheet.Listed("Notes, newest first", notes, pageNotes, "And %d more: /log has them.", "")})
	}
	return sheet.Page{Title: fmt.Sprintf("%s in %d", typeset.Name(y.car.Name, "The car"), y.year), Under: y.under(), Made: y.made, Rows: rows, Foot: y.foot()}
}

// under says how much of the year is on record, and what cannot be shown.
func (y carYear) under() string {
	lines := []string{say.Capital(say.YearOfCar(y.season)) + "."}
	for axle := range tuning.Axle(tuning.Axles) {
		if y.season.Replaced(axle) {
			lines = append(lines, fmt.Sprintf("The %s had other dampers before %s: /log has their clicks.", axle, y.season.Fitted[axle].In(y.zone).Format("2 Jan 2006")))
		}
	}
	if resting := say.Resting(y.car, y.season.Lanes(y.car)); resting != "" {
		lines = append(lines, resting+".")
	}
	if _, ok := typeset.Readable(y.car.Name); !ok {
		lines = append(lines, "The name of the car has letters that no font here can print; read it in the message that this page came with.")
	}
	return strings.Join(lines, "\n")
}

// lapSection has the quickest laps by place and weather, and how the grip went.
func (y carYear) lapSection() sheet.Section {
	s := sheet.Section{Head: "Best laps", Table: sheet.Table{Head: []string{"Place", "Track", "Lap", "Day"}, Widths: []float64{2, 1.3, 1.6, 1.4}}}
	laps := y.season.BestLaps()
	for _, l := range laps[:min(len(laps), pageLaps)] {
		s.Table.Rows = append(s.Table.Rows, []string{cutName(cmp.Or(l.Place, "At no event"), "a place"), string(l.Conditions), unit.ShowLap(l.Lap), say.Day(l.At, y.zone)})
	}
	if len(laps) == 0 {
		s.Table, s.Points = sheet.Table{}, []string{"No lap was told: /feel takes one, lap:1:42.6."}
	}
	if more := len(laps) - pageLaps; more > 0 {
		s.Points = append(s.Points, fmt.Sprintf("And %d more: /log has them.", more))
	}
	if grip := say.GripOver(y.season.Feels, y.zone); grip != "" {
		s.Points = append(s.Points, grip+".")
	}
	return s
}

// eventSection has the events by the numbers that the picture gives them, the
// newest where there are too many.
func (y carYear) eventSection() sheet.Section {
	s := sheet.Section{Head: "Events", Table: sheet.Table{Center: true,
		Head: []string{"No.", "Event", "Day", "Place", "Weather", "Changes", "Runs", "Best grip", "Best lap"}, Widths: []float64{0.8, 3, 1.3, 2.6, 1.5, 1.5, 1.1, 1.6, 1.6}}}
	first := max(0, len(y.season.Events)-pageEvents)
	if first > 0 {
		s.Head = fmt.Sprintf("Events, the last %d", pageEvents)
	}
	for i, e := range y.season.Events[first:] {
		row := []string{fmt.Sprint(first + i + 1), cutName(e.Name, "an event"), say.Day(e.Starts, y.zone),
			cutName(e.Place, ""), say.Weather(e.Weather)}
		s.Table.Rows = append(s.Table.Rows, append(row, y.countsAt(e)...))
	}
	return s
}

// cutName is a name as a table has room for it.
func cutName(name, instead string) string {
	return typeset.Cut(typeset.Name(name, instead), typeset.Regular, nameWidth)
}

// countsAt are the changes, the runs, the best grip and the best lap of an event,
// "-" where nothing was told.
func (y carYear) countsAt(e tuning.Event) []string {
	var turned, runs int
	for _, c := range y.season.Changes {
		if c.Event == e.ID && c.Turns() {
			turned++
		}
	}
	grip, lap := 0, "-"
	best := unit.MaxLap
	for _, f := range y.season.Feels {
		if f.Event != e.ID {
			continue
		}
		runs++
		grip = max(grip, f.Grip)
		if f.Lap > 0 && f.Lap <= best {
			best, lap = f.Lap, unit.ShowLap(f.Lap)
		}
	}
	cells := []string{fmt.Sprint(turned), fmt.Sprint(runs), fmt.Sprint(grip), lap}
	if runs == 0 {
		cells[2] = "-"
	}
	return cells
}

// foot says how the page is read and what its figures rest on.
func (y carYear) foot() string {
	return "The picture has what was done in order, each day as wide as what was done on it; an event has a frame and its number. " +
		"What helped is told in marks of balance from -3 to +3, or half marks of grip, with where it lies nine times in ten: " +
		"all that is on record counts, older answers less, and with few answers what is usual counts more. Made on " + say.Time(y.made, y.zone) + "."
}
