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

// panel draws an axle on a scale that goes down to bottom. Where the model hardly
// tells the clicks apart there is no window in it, and where the grip still rises
// at a stop no best.
func (w Window) panel(bottom float64) (*plot.Plot, error) {
	values, err := w.values()
	if err != nil {
		return nil, err
	}
	p := panel(w.Scale, w.Name, "grip, % of best")
	room := (100 - bottom) / 4
	p.Y.Min, p.Y.Max = bottom-room/2, 100+room
	if !w.Level() {
		band, err := w.band(p)
		if err != nil {
			return nil, err
		}
		p.Add(band)
	}
	today := &plotter.Line{XYs: plotter.XYs{{X: float64(w.Today), Y: p.Y.Min}, {X: float64(w.Today), Y: p.Y.Max}},
		LineStyle: draw.LineStyle{Width: thin, Color: ink, Dashes: dashed}}
	p.Add(ruled(), line(0, values, thick, ink, nil), today)
	middle := float64(w.Clicks) / 2
	switch {
	case w.Level():
		p.Add(word{middle, p.Y.Min + room/2, "hardly told apart", -0.5, 0, vg.Point{}})
	case w.AtStop():
		p.Add(word{middle, p.Y.Min + room/2, "no peak inside the range", -0.5, 0, vg.Point{}})
	default:
		best := &plotter.Scatter{XYs: plotter.XYs{{X: float64(w.Best), Y: 100}},
			GlyphStyle: draw.GlyphStyle{Color: ink, Radius: 7, Shape: draw.PyramidGlyph{}}}
		p.Add(best, w.beside(w.Best, p.Y.Max, fmt.Sprintf("best %d", w.counted(w.Best)), -20))
		p.Add(word{float64(w.From+w.To) / 2, p.Y.Min + room/2, "window", -0.5, 0, vg.Point{}})
	}
	p.Add(w.beside(w.Today, bottom+room, fmt.Sprintf("today %d", w.counted(w.Today)), 0))
	return p, nil
}

// band is the window as an outlined area.
func (w Window) band(p *plot.Plot) (*plotter.Polygon, error) {
	from, to := float64(w.From), float64(w.To)
	band, err := plotter.NewPolygon(plotter.XYs{{X: from, Y: p.Y.Min}, {X: to, Y: p.Y.Min}, {X: to, Y: p.Y.Max}, {X: from, Y: p.Y.Max}})
	if err != nil {
		return nil, err
	}
	band.Color = color.Color(shade)
	band.LineStyle = draw.LineStyle{Width: thin, Color: edge}
	return band, nil
}

// beside writes a word on the side of a click that has room for it.
func (w Window) beside(click int, y float64, say string, up vg.Length) word {
	if 2*click > w.Clicks {
		return word{float64(click), y, say, -1, 0, vg.Point{X: -10, Y: up}}
	}
	return word{float64(click), y, say, 0, 0, vg.Point{X: 10, Y: up}}
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
		return "the clicks are hardly told apart"
	case w.AtStop():
		return "no peak inside the range"
	}
	return fmt.Sprintf("best at %d, window %d to %d", w.counted(w.Best), w.counted(w.From), w.counted(w.To))
}
