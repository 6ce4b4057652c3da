package chart

import (
	"fmt"
	"io"
	"math"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"detent/bot/typeset"
	"detent/tuning/ride"
)

// Windows is the grip of each axle by click, with its window.
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

// lowest is how much of the grip below the best is always in view, in per cent.
const lowest = 1

// Draw writes the picture as PNG.
func (w Windows) Draw(out io.Writer) error {
	var panels []*plot.Plot
	for _, axle := range w.Axles {
		p, err := axle.panel()
		if err != nil {
			return err
		}
		panels = append(panels, p)
	}
	return write(out, w.Title, panels)
}

func (w Window) panel() (*plot.Plot, error) {
	if w.Today < 0 || w.Today >= len(w.Grip) {
		return nil, fmt.Errorf("click %d is not one of the window's %d", w.Today, len(w.Grip))
	}
	p := panel(w.Scale, w.Name, "grip, % of best")
	bottom := 100.0 - lowest
	values := make([]float64, len(w.Grip))
	for click, g := range w.Grip {
		values[click] = 100 * float64(g.Index/w.Grip[w.Best].Index)
		if !finite(values[click]) {
			return nil, fmt.Errorf("click %d has no grip to draw", click)
		}
		bottom = min(bottom, values[click])
	}
	room := (100 - bottom) / 5
	p.Y.Min, p.Y.Max = bottom-room/2, 100+room

	from, to := float64(w.From), float64(w.To)
	band, err := plotter.NewPolygon(plotter.XYs{{X: from, Y: p.Y.Min}, {X: to, Y: p.Y.Min}, {X: to, Y: p.Y.Max}, {X: from, Y: p.Y.Max}})
	if err != nil {
		return nil, err
	}
	band.Color, band.LineStyle.Width = shade, 0
	best := &plotter.Scatter{XYs: plotter.XYs{{X: float64(w.Best), Y: 100}},
		GlyphStyle: draw.GlyphStyle{Color: ink, Radius: 7, Shape: draw.PyramidGlyph{}}}
	today := &plotter.Line{XYs: plotter.XYs{{X: float64(w.Today), Y: p.Y.Min}, {X: float64(w.Today), Y: p.Y.Max}},
		LineStyle: draw.LineStyle{Width: thin, Color: ink, Dashes: dashed}}
	p.Add(band, ruled(), line(0, values, thick, ink, nil), today, best,
		w.beside(w.Best, 100, fmt.Sprintf("best %d", w.counted(w.Best)), 8),
		w.todayWord(values[w.Today], p.Y.Min, p.Y.Max), w.windowWord(p.Y.Min+(p.Y.Max-p.Y.Min)/4))
	return p, nil
}

// todayWord stands at the foot of today's line, or at its head where the curve
// passes the foot.
func (w Window) todayWord(value, bottom, top float64) *plotter.Labels {
	say := fmt.Sprintf("today %d", w.counted(w.Today))
	if value < bottom+(top-bottom)/3 {
		return w.beside(w.Today, top, say, -20)
	}
	return w.beside(w.Today, bottom, say, 8)
}

// windowWord stands in the middle of the window, or beside today's line where
// that passes there.
func (w Window) windowWord(y float64) *plotter.Labels {
	middle, today := float64(w.From+w.To)/2, float64(w.Today)
	if math.Abs(today-middle) < float64(w.Clicks)/10 {
		return word(today, y, "window", 0, 0, vg.Point{X: 10})
	}
	return word(middle, y, "window", -0.5, 0, vg.Point{})
}

// beside writes a word on the side of a click that has room for it.
func (w Window) beside(click int, y float64, say string, up vg.Length) *plotter.Labels {
	if 2*click > w.Clicks {
		return word(float64(click), y, say, -1, 0, vg.Point{X: -6, Y: up})
	}
	return word(float64(click), y, say, 0, 0, vg.Point{X: 6, Y: up})
}

// Alt says the picture in words.
func (w Windows) Alt() string {
	parts := []string{typeset.Plain(w.Title) + ": grip by click, in per cent of the best."}
	for _, a := range w.Axles {
		softest, hardest := a.Grip[0].Index/a.Grip[a.Best].Index, a.Grip[len(a.Grip)-1].Index/a.Grip[a.Best].Index
		parts = append(parts, fmt.Sprintf("%s: from %.2f %% at full soft, best at %d, to %.2f %% at full hard; window %d to %d, today %d, clicks from %s.",
			a.Name, 100*float64(softest), a.counted(a.Best), 100*float64(hardest), a.counted(a.From), a.counted(a.To), a.counted(a.Today), a.stop()))
	}
	return short(strings.Join(parts, " "), MaxAlt)
}
