package chart

import (
	"fmt"
	"io"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"

	"detent/bot/typeset"
)

// Ratios is the damping ratio of each axle by click. All panels have one scale
// upward.
type Ratios struct {
	Title string
	Axles []RatioAxle
}

// RatioAxle is one axle of Ratios: up to four lines.
type RatioAxle struct {
	Scale
	Lines []Line
}

// Line is the damping ratio by click of one direction and speed.
type Line struct {
	Name   string
	First  int // the click of the first value, from full soft
	Values []float64
	Today  int // click from full soft
}

// styles tell the lines of a panel apart, in the order they are given.
var styles = []draw.LineStyle{
	{Width: thick, Color: ink},
	{Width: thin, Color: faint, Dashes: dotted},
	{Width: thick, Color: ink, Dashes: dashed},
	{Width: thin, Color: faint, Dashes: dotDash},
}

// legendRoom keeps the curves below the legend, wherever they go.
const legendRoom = 1.7

// Draw writes the picture as PNG.
func (r Ratios) Draw(out io.Writer) error {
	top := 0.0
	for _, axle := range r.Axles {
		for _, l := range axle.Lines {
			for _, v := range l.Values {
				top = max(top, v)
			}
		}
	}
	var panels []*plot.Plot
	for _, axle := range r.Axles {
		p, err := axle.panel(top)
		if err != nil {
			return err
		}
		panels = append(panels, p)
	}
	return write(out, r.Title, panels)
}

func (a RatioAxle) panel(top float64) (*plot.Plot, error) {
	p := panel(a.Scale, a.Name, "damping ratio")
	p.Legend.Top, p.Legend.Left = true, true
	p.Legend.TextStyle.Font = face(labelSize)
	p.Legend.ThumbnailWidth = 42
	p.Legend.XOffs = 8
	p.Legend.Padding = 3
	p.Add(ruled())
	for i, l := range a.Lines {
		for _, v := range l.Values {
			if !finite(v) {
				return nil, fmt.Errorf("%s has no ratio to draw", l.Name)
			}
		}
		style := styles[i%len(styles)]
		curve := line(l.First, l.Values, style.Width, style.Color, style.Dashes)
		p.Add(curve)
		if at := l.Today - l.First; at >= 0 && at < len(l.Values) {
			p.Add(&plotter.Scatter{XYs: plotter.XYs{{X: float64(l.Today), Y: l.Values[at]}},
				GlyphStyle: draw.GlyphStyle{Color: ink, Radius: 5, Shape: draw.CircleGlyph{}}})
		}
		p.Legend.Add(l.Name, curve)
	}
	p.Y.Min, p.Y.Max = 0, legendRoom*top
	return p, nil
}

// Alt says the picture in words.
func (r Ratios) Alt() string {
	parts := []string{typeset.Plain(r.Title) + ": damping ratio by click, from full soft to full hard; a dot marks where it stands."}
	for _, a := range r.Axles {
		for _, l := range a.Lines {
			if n := len(l.Values); n > 0 {
				parts = append(parts, fmt.Sprintf("%s %s: %.2f to %.2f.", a.Name, l.Name, l.Values[0], l.Values[n-1]))
			}
		}
	}
	return short(strings.Join(parts, " "), MaxAlt)
}
