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
	"detent/tuning/ride"
)

// Windows is the grip of each axle by click, with its window. Both panels have
// one scale upward.
type Windows struct {
	Title string
	Axles []Window
}

// Window is one axle of Windows.
type Window struct {
	Scale
	ride.Window
	Today int
}

// tall is how much grip the vertical axis spans at least, in per cent: less would
// magnify what nobody can feel.
const tall = 2

// Draw writes the picture as PNG.
func (w Windows) Draw(out io.Writer) error {
	bottom := 100.0 - tall
	for _, axle := range w.Axles {
		values, err := axle.values()
		if err != nil {
			return err
		}
		for _, v := range values {
			bottom = min(bottom, v)
		}
	}
	var panels []*plot.Plot
	for _, axle := range w.Axles {
		p, err := axle.panel(bottom)
		if err != nil {
			return err
		}
		panels = append(panels, p)
	}
	return write(out, w.Title, panels)
}

// values are the grips by click, in per cent of the best.
func (w Window) values() ([]float64, error) {
	if w.Today < 0 || w.Today >= len(w.Grip) {
		return nil, fmt.Errorf("click %d is not one of the window's %d", w.Today, len(w.Grip))
	}
	values := make([]float64, len(w.Grip))
	for click, g := range w.Grip {
		values[click] = 100 * float64(g.Index/w.Grip[w.Best].Index)
		if !finite(values[click]) {
			return nil, fmt.Errorf("click %d has no grip to draw", click)
		}
	}
	return values, nil
}

// panel draws an axle on a scale that goes down to bottom, with two rows of words
// above the curve. It marks no window and no best click where
// the model hardly tells the clicks apart, or where the grip still rises at a stop.
func (w Window) panel(bottom float64) (*plot.Plot, error) {
	values, err := w.values()
	if err != nil {
		return nil, err
	}
	p := panel(w.Scale, w.Name, "grip, % of best")
	span := 100 - bottom
	p.Y.Min, p.Y.Max = bottom-span/10, 100+wordRows*span
	p.Y.Tick.Marker = upToHundred{}
	finding := word{float64(w.Clicks) / 2, 100 + upperRow*span, w.finding(), -0.5, -0.5, vg.Point{}}
	if w.told() {
		band, err := w.band(p.Y.Min, 100+bandTop*span)
		if err != nil {
			return nil, err
		}
		p.Add(band)
		finding.x = float64(w.From+w.To) / 2
	}
	today := &plotter.Line{XYs: plotter.XYs{{X: float64(w.Today), Y: p.Y.Min}, {X: float64(w.Today), Y: 100 + lowerRow*span}},
		LineStyle: draw.LineStyle{Width: thin, Color: ink, Dashes: dashed}}
	p.Add(ruled(), line(0, values, thick, ink, nil), today)
	if w.told() {
		p.Add(&plotter.Scatter{XYs: plotter.XYs{{X: float64(w.Best), Y: 100}},
			GlyphStyle: draw.GlyphStyle{Color: ink, Radius: 7, Shape: draw.PyramidGlyph{}}})
	}
	p.Add(finding, word{float64(w.Today), 100 + lowerRow*span, fmt.Sprintf("today %d", w.counted(w.Today)), -0.5, -0.5, vg.Point{}})
	return p, nil
}

// The rows of words above the curve, as parts of what the axis spans.
const (
	bandTop  = 0.1 // the window ends below them
	lowerRow = 0.29
	upperRow = 0.55
	wordRows = 0.7
)

// told tells whether there is a window to be drawn.
func (w Window) told() bool { return !w.Level() && !w.AtStop() }

// upToHundred puts no number above 100 per cent, where the words stand.
type upToHundred struct{}

// Ticks are whole steps down from 100, six at most.
func (upToHundred) Ticks(low, _ float64) []plot.Tick {
	step := 0.5
	for _, next := range []float64{1, 2, 5, 10, 20, 50, 100} {
		if (100-low)/step > 5 {
			step = next
		}
	}
	var ticks []plot.Tick
	for v := 100.0; v >= low; v -= step {
		ticks = append(ticks, plot.Tick{Value: v, Label: fmt.Sprint(v)})
	}
	return ticks
}

// band is the window as an outlined area.
func (w Window) band(bottom, top float64) (*plotter.Polygon, error) {
	from, to := float64(w.From), float64(w.To)
	band, err := plotter.NewPolygon(plotter.XYs{{X: from, Y: bottom}, {X: to, Y: bottom}, {X: to, Y: top}, {X: from, Y: top}})
	if err != nil {
		return nil, err
	}
	band.Color = color.Color(shade)
	band.LineStyle = draw.LineStyle{Width: thin, Color: edge}
	return band, nil
}

// Alt says the picture in words.
func (w Windows) Alt() string {
	parts := []string{typeset.Plain(w.Title) + ": grip by click, in per cent of the best."}
	for _, a := range w.Axles {
		softest, hardest := a.Grip[0].Index/a.Grip[a.Best].Index, a.Grip[len(a.Grip)-1].Index/a.Grip[a.Best].Index
		parts = append(parts, fmt.Sprintf("%s: from %.2f %% at full soft to %.2f %% at full hard; %s; today %d, clicks from %s.",
			a.Name, 100*float64(softest), 100*float64(hardest), a.finding(), a.counted(a.Today), a.stop()))
	}
	return short(strings.Join(parts, " "), MaxAlt)
}

// finding says what the panel shows.
func (w Window) finding() string {
	switch {
	case w.Level():
		return "hardly told apart"
	case w.AtStop():
		return "no peak inside the range"
	}
	return fmt.Sprintf("window %d to %d, best at %d", w.counted(w.From), w.counted(w.To), w.counted(w.Best))
}
