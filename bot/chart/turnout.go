package chart

import (
	"fmt"
	"io"
	"strings"

	"gonum.org/v1/plot/vg"

	"detent/bot/typeset"
)

// Turnout is how many cars came to each event of a club, and how many of their
// drivers said how it felt.
type Turnout struct {
	Title string
	Rows  []Attendance // from the top
}

// Attendance is one row of Turnout.
type Attendance struct {
	Name string // of the event, or of a month of events
	Day  string // of the event
	Cars int
	Felt int // of those, whose driver said how it felt; below 0 where that is not told
}

// MostRows is how many rows of Turnout have room.
const MostRows = 12

// Draw writes the picture as PNG.
func (t Turnout) Draw(out io.Writer) error {
	if len(t.Rows) == 0 || len(t.Rows) > MostRows {
		return fmt.Errorf("%d events cannot be drawn", len(t.Rows))
	}
	b := newBoard(t.Title)
	b.line("Cars that came; black: those whose driver said how it felt.")
	b.y -= 6
	most := 1
	for _, r := range t.Rows {
		most = max(most, r.Cars)
	}
	const between = vg.Length(5)
	tall := min(24, (b.y-boardFoot)/vg.Length(len(t.Rows))-wordLine-belowWords-between)
	for _, r := range t.Rows {
		b.attendance(r, most, tall)
		b.y -= between
	}
	return b.encode(out)
}

// attendance draws a row below its words.
func (b *board) attendance(r Attendance, most int, tall vg.Length) {
	named := r
	named.Name = typeset.Cut(r.Name, typeset.Regular, longestName)
	b.line(named.say())
	b.y -= belowWords
	wide := func(cars int) vg.Length { return (boardRight - boardLeft) * vg.Length(cars) / vg.Length(most) }
	low := vg.Point{X: boardLeft, Y: b.y - tall}
	b.y = low.Y
	if r.Cars > 0 {
		b.box(low, vg.Point{X: boardLeft + wide(r.Cars), Y: low.Y + tall}, shade)
	}
	if felt := min(r.Felt, r.Cars); felt > 0 {
		high := vg.Point{X: boardLeft + wide(felt), Y: low.Y + tall}
		b.FillPolygon(ink, []vg.Point{low, {X: high.X, Y: low.Y}, high, {X: low.X, Y: high.Y}})
	}
}

// belowWords is the air between a row's words and its bar.
const belowWords = vg.Length(2)

// longestName is how long a row's name may be, in ems, to leave room for its
// numbers.
const longestName = 22

// say says a row: "Spring day, 16 May: 12 cars, 9 answered".
func (r Attendance) say() string {
	words := r.Name
	if r.Day != "" {
		words += ", " + r.Day
	}
	if words += fmt.Sprintf(": %d cars", r.Cars); r.Cars == 1 {
		words = strings.TrimSuffix(words, "s")
	}
	if r.Felt >= 0 {
		words += fmt.Sprintf(", %d answered", r.Felt)
	}
	return words
}

// Alt says the picture in words.
func (t Turnout) Alt() string {
	parts := []string{typeset.Plain(t.Title) + ": the cars that came to each event, and how many of their drivers said how it felt."}
	for _, r := range t.Rows {
		parts = append(parts, typeset.Plain(r.say())+".")
	}
	return short(strings.Join(parts, " "), MaxAlt)
}
