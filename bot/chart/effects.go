package chart

import (
	"fmt"
	"image/color"
	"io"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"detent/bot/typeset"
)

// Effects is what turns do on a car, in marks the wanted way, each with where it
// lies nine times in ten.
type Effects struct {
	Title string
	Rows  []Effect // from the top
}

// Effect is one remedy of Effects.
type Effect struct {
	Name  string
	Mean  float64
	Low   float64
	High  float64
	Tries int
}

// leastMarks is how far the scale goes to each side at least.
const leastMarks = 1

// beyond is how far the scale goes beyond the longest line.
const beyond = 0.1

// Draw writes the picture as PNG.
func (e Effects) Draw(out io.Writer) error {
	if len(e.Rows) == 0 {
		return fmt.Errorf("there is no effect to draw")
	}
	p := panel(Scale{}, "what each turn does", "")
	p.X.Label.Text = "worse  ←  marks  →  better"
	p.X.Min, p.X.Max = -leastMarks, leastMarks
	p.X.Tick.Marker = wholeMarks{}
	p.HideY()
	p.Y.Min, p.Y.Max = float64(-len(e.Rows))+0.6, 0.7
	for _, r := range e.Rows {
		if !finite(r.Mean) || !finite(r.Low) || !finite(r.High) {
			return fmt.Errorf("%s has no effect to draw", r.Name)
		}
		p.X.Min, p.X.Max = min(p.X.Min, r.Low-beyond), max(p.X.Max, r.High+beyond)
	}
	p.Add(ruled(), upright(0, p.Y.Min, p.Y.Max))
	for i, r := range e.Rows {
		y := -float64(i)
		p.Add(along(r.Low, r.High, y),
			&plotter.Scatter{XYs: plotter.XYs{{X: r.Mean, Y: y}}, GlyphStyle: draw.GlyphStyle{Color: ink, Radius: 6, Shape: draw.CircleGlyph{}}},
			word{p.X.Min, y + nameAbove, r.Name, 0, 0, vg.Point{}})
	}
	return write(out, e.Title, []*plot.Plot{p})
}

// nameAbove is how far above its line a name stands, in rows.
const nameAbove = 0.22

// along is an interval, with an end mark on each side.
func along(low, high, y float64) *plotter.Line {
	const end = 0.08
	return &plotter.Line{LineStyle: draw.LineStyle{Width: thick, Color: color.Color(edge)}, XYs: plotter.XYs{
		{X: low, Y: y - end}, {X: low, Y: y + end}, {X: low, Y: y}, {X: high, Y: y}, {X: high, Y: y - end}, {X: high, Y: y + end}}}
}

// upright is the line of no effect.
func upright(x, low, high float64) *plotter.Line {
	return &plotter.Line{XYs: plotter.XYs{{X: x, Y: low}, {X: x, Y: high}}, LineStyle: draw.LineStyle{Width: thin, Color: ink, Dashes: dashed}}
}

// wholeMarks puts a number under each whole mark.
type wholeMarks struct{}

// Ticks are the whole marks of a scale, with their signs.
func (wholeMarks) Ticks(low, high float64) []plot.Tick {
	var ticks []plot.Tick
	for m := int(low) - 1; m <= int(high)+1; m++ {
		if v := float64(m); v >= low && v <= high {
			ticks = append(ticks, plot.Tick{Value: v, Label: strings.Replace(fmt.Sprintf("%+d", m), "+0", "0", 1)})
		}
	}
	return ticks
}

// Alt says the picture in words.
func (e Effects) Alt() string {
	parts := []string{typeset.Plain(e.Title) + ": what each turn does, in marks the wanted way; the line is where that lies nine times in ten."}
	for _, r := range e.Rows {
		parts = append(parts, fmt.Sprintf("%s: %.1f, from %.1f to %.1f; tries: %d.", typeset.Plain(r.Name), r.Mean, r.Low, r.High, r.Tries))
	}
	return short(strings.Join(parts, " "), MaxAlt)
}
