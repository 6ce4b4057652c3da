package season

import (
	"fmt"

	"detent/bot/say"
	"detent/bot/sheet"
	"detent/bot/typeset"
)

// What one page has room for in letters that can be read.
const (
	pageEvents  = 24
	pageHelped  = 6
	eventLength = 14 // of a name, in ems: a line of the table
)

// page is the club's year as a page to print, with its picture.
func (y clubSeason) page(png []byte) sheet.Page {
	year := sheet.Section{Head: "The year", Points: say.YearOfClub(y.season)}
	rows := [][]sheet.Section{{{Head: "Who came", Picture: png, Wide: 1.4}, year}}
	if len(png) == 0 {
		rows = [][]sheet.Section{{year}}
	}
	const more = "And %d more."
	none := "Nothing yet that three cars of three people have tried and judged."
	helped := sheet.Listed("What helped", y.helped(true), pageHelped, more, none)
	if failed := y.helped(false); len(failed) > 0 {
		rows = append(rows, []sheet.Section{y.eventSection()}, []sheet.Section{helped, sheet.Listed("What did not", failed, pageHelped, more, "")})
	} else {
		rows = append(rows, []sheet.Section{y.eventSection()}, []sheet.Section{helped})
	}
	return sheet.Page{Title: y.title(), Under: y.under(), Made: y.made, Rows: rows, Foot: y.foot()}
}

// under says how many events there were.
func (y clubSeason) under() string {
	words := say.Count(len(y.season.Events), "event", "events")
	if n := len(y.season.Coming); n > 0 {
		words += fmt.Sprintf(", %d still to come", n)
	}
	return words + "."
}

// eventSection has the events, the newest where there are too many.
func (y clubSeason) eventSection() sheet.Section {
	s := sheet.Section{Head: "Events", Table: sheet.Table{Center: true,
		Head: []string{"Event", "Day", "Place", "Weather", "Cars", "Answered"}, Widths: []float64{3.4, 1.2, 3, 1.2, 1, 1.2}}}
	first := max(0, len(y.season.Events)-pageEvents)
	if first > 0 {
		s.Head = fmt.Sprintf("Events, the last %d", pageEvents)
	}
	for _, t := range y.season.Events[first:] {
		felt := "-"
		if n := answered(t); n >= 0 {
			felt = fmt.Sprint(n)
		}
		s.Table.Rows = append(s.Table.Rows, []string{
			typeset.Cut(typeset.Name(t.Event.Name, "an event"), typeset.Regular, eventLength), say.Day(t.Event.Starts, y.zone),
			typeset.Cut(typeset.Name(t.Event.Place, ""), typeset.Regular, eventLength), string(t.Event.Weather), fmt.Sprint(t.Cars), felt})
	}
	return s
}

// foot says what the page tells and what it keeps to itself.
func (y clubSeason) foot() string {
	return "Answered are the cars whose driver said how it felt. What fewer than three cars of three people stand behind is not told (a dash), " +
		"and never whose it is. What helped is in marks of balance from -3 to +3, or half marks of grip, with where it lies nine times in ten. Made on " + say.Time(y.made, y.zone) + "."
}
