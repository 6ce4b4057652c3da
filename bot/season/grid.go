package season

import (
	"fmt"
	"slices"
	"strings"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
)

// This file is the guide as a message: where to start as a small table, and how
// to read it.

// weathers are what the guide's message has columns for: both kinds where the
// day may be either.
func (g guide) weathers() []tuning.Weather {
	switch g.event.Weather {
	case tuning.Wet, tuning.Dry:
		return []tuning.Weather{g.event.Weather}
	}
	return []tuning.Weather{tuning.Dry, tuning.Wet}
}

// text says when and where, and how the table is read.
func (g guide) text() string {
	how := "Find your adjuster's clicks on the left. Starts in clicks from hard, " + g.weatherWords() + "."
	return strings.Join([]string{
		say.Event(g.event, g.zone), how,
		"First: hot pressures, tyres, alignment, bars, leaks; left and right alike.",
		g.hint(),
	}, "\n")
}

func (g guide) weatherWords() string {
	words := make([]string, len(g.weathers()))
	for i, w := range g.weathers() {
		words[i] = string(w)
	}
	return strings.Join(words, "/")
}

// hint is what the weather or the surface changes. What the surface changes is
// from memory of the trade.
func (g guide) hint() string {
	switch {
	case g.event.Weather == tuning.Wet:
		return "If it dries: a step stiffer everywhere."
	case g.event.Weather == tuning.Dry:
		return "If it is wet: a step softer everywhere."
	case g.event.Surface == tuning.Smooth:
		return "Smooth: it warns less; stop at the first hop."
	}
	return "Bumpy: it hops sooner; in doubt stay softer."
}

// grid is the table of starts, for as many numbers of clicks as the message has
// room for. The commonest get it first.
func (g guide) grid(reply bot.Reply) string {
	for rows := len(g.present); rows > 0; rows-- {
		ranges := slices.Clone(g.present[:rows])
		slices.Sort(ranges)
		reply.View.Grid = g.table(ranges)
		lines, runes := reply.Message().Measure()
		mostLines, mostRunes := phone.Guide.Room()
		if whole := strings.Contains(reply.Message().Text, g.hint()); whole && lines <= mostLines && runes <= mostRunes {
			return reply.View.Grid
		}
	}
	return g.table(nil)
}

// cellColumns is the width of a column of the table: "19/22".
const cellColumns = 5

// table writes the starts of adjusters with so many clicks: a row a number, two
// columns a kind of drive.
func (g guide) table(ranges []int) string {
	var b strings.Builder
	kinds, ends := "  ", "  "
	for _, drive := range g.drives {
		kinds += fmt.Sprintf("  %*s", 2*cellColumns+2, strings.ReplaceAll(say.Drive(drive), "-wheel", "")+" drive")
		ends += fmt.Sprintf("  %*s  %*s", cellColumns, "front", cellColumns, "rear")
	}
	fmt.Fprintf(&b, "%s\n%s\n", kinds, ends)
	for _, n := range ranges {
		fmt.Fprintf(&b, "%2d", n)
		for _, drive := range g.drives {
			for axle := range tuning.Axle(tuning.Axles) {
				fmt.Fprintf(&b, "  %*s", cellColumns, g.cell(drive, axle, n))
			}
		}
		b.WriteByte('\n')
	}
	return strings.TrimRight(b.String(), "\n")
}

// cell is the start of an adjuster of n clicks, from hard, in each weather.
func (g guide) cell(drive tuning.Drive, axle tuning.Axle, n int) string {
	var cells []string
	for _, w := range g.weathers() {
		cells = append(cells, fmt.Sprint(n-g.start(drive, axle, n, w)))
	}
	return strings.Join(cells, "/")
}
