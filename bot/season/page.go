package season

import (
	"bytes"
	"fmt"
	"strings"
	"time"

	"detent/bot"
	"detent/bot/say"
	"detent/bot/sheet"
	"detent/bot/typeset"
	"detent/tuning"
)

// page is the guide as a sheet to print.
func (g guide) page(now time.Time) sheet.Page {
	var kinds []string
	for _, drive := range g.drives {
		kinds = append(kinds, g.kind(drive)+".")
	}
	e := g.event
	e.Place, e.GuideAt = typeset.Name(e.Place, ""), time.Time{}
	return sheet.Page{
		Title: typeset.Name(g.event.Name, "The event"), Made: now,
		Under: say.Event(e, g.zone) + "\n" + strings.Join(kinds, " "),
		Rows: append(g.startSections(),
			[]sheet.Section{cardSection(g.drives)},
			safetySections(),
		),
		Foot: footOf(g.sizes),
	}
}

// startSections are the starts as tables, one beside the other where it may be
// dry or wet, and what else moves them.
func (g guide) startSections() [][]sheet.Section {
	points := append(saySteps(g.ranges, g.sizes), g.changes()...)
	var starts []sheet.Section
	for _, w := range g.printed() {
		starts = append(starts, sheet.Section{Head: "Where to start, " + string(w) + ": clicks from hard (from soft)", Table: g.startTable(w)})
	}
	if len(starts) == 1 {
		starts[0].Points = points
		return [][]sheet.Section{starts}
	}
	return [][]sheet.Section{starts, {{Head: "Steps", Points: points}}}
}

// startTable is where adjusters of so many clicks start in a weather.
func (g guide) startTable(weather tuning.Weather) sheet.Table {
	start := sheet.Table{Head: []string{"Clicks"}, Center: true}
	for _, drive := range g.drives {
		kind := say.Capital(say.Drive(drive))
		if len(g.printed()) > 1 { // half as wide
			kind = strings.TrimSuffix(kind, "-wheel")
		}
		start.Head = append(start.Head, kind+" drive: front", "rear")
	}
	for _, n := range g.ranges {
		cells := []string{fmt.Sprint(n)}
		for _, drive := range g.drives {
			cells = append(cells, g.place(drive, tuning.Front, n, weather), g.place(drive, tuning.Rear, n, weather))
		}
		start.Rows = append(start.Rows, cells)
	}
	return start
}

// footOf says what every sheet rests on.
func footOf(sizes tuning.Sizes) string {
	foot := "The starts, the steps and the card are common practice in the trade, with no published source."
	if sizes != tuning.DefaultSizes {
		foot = "The starts and the card are common practice in the trade, with no published source; the steps are this club's own."
	}
	return foot + " One change at a time; your own feel decides."
}

// safetySections are what stands on every sheet beside the clicks.
func safetySections() []sheet.Section {
	return []sheet.Section{{Head: "Before any click", Points: say.Checks(tuning.Checks)}, {Head: "Safety", Points: guideCautions()}}
}

func cardSection(drives []tuning.Drive) sheet.Section {
	return sheet.Section{Head: "The symptom card",
		Table: sheet.Table{Head: []string{"It does this", starred}, Widths: []float64{2, 5}, Rows: symptomCard(drives)}}
}

// printSheet is a page as a file.
func printSheet(name string, p sheet.Page) ([]bot.File, error) {
	var pdf bytes.Buffer
	err := p.Write(&pdf)
	return []bot.File{{Name: name, Type: "application/pdf", Data: pdf.Bytes()}}, err
}
