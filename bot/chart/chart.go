// Package chart draws the pictures that go with a reply: PNG, readable on a
// phone, and in grey as in colour, since words and dashes tell the lines apart.
// Every drawing has words for those who cannot see it.
package chart

import (
	"errors"
	"fmt"
	"image"
	"image/color"
	imagedraw "image/draw"
	"image/png"
	"io"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"

	"detent/bot/typeset"
)

// The size of every picture: a square that a phone held upright shows whole.
const (
	side       = 7 * vg.Inch
	dotsAnInch = 120
	Side       = 7 * dotsAnInch // in pixels
)

// Sizes of type and line, large enough for a phone.
const (
	titleSize = vg.Length(20)
	labelSize = vg.Length(15)
	thick     = vg.Length(3)
	thin      = vg.Length(1.5)
)

// Greys on a white ground. What carries meaning has a contrast of 3:1 with the
// ground at least (edge 6.2, faint 5.7), words one of 4.5:1 with whatever they
// stand on (ink on shade 12). The shade alone says nothing: its edge does.
var (
	ink   = color.Gray{0x18}
	faint = color.Gray{0x66}
	edge  = color.Gray{0x60}
	shade = color.Gray{0xdc}
	grid  = color.Gray{0xd2}
)

// Dash patterns.
var (
	dashed  = []vg.Length{vg.Points(9), vg.Points(5)}
	dotted  = []vg.Length{vg.Points(2), vg.Points(4)}
	dotDash = []vg.Length{vg.Points(9), vg.Points(4), vg.Points(2), vg.Points(4)}
)

// MaxAlt is the longest alt text the messaging platform takes, in characters.
const MaxAlt = 1024

// face is the type of every word, at a size.
func face(size vg.Length) font.Font {
	return font.From(font.Font{Typeface: "Liberation", Variant: "Sans"}, size)
}

// Scale is the adjuster along the bottom of a panel.
type Scale struct {
	Name     string // "front bump"
	Clicks   int    // between the stops
	FromHard bool   // the member counts from full hard
}

// counted is a click as the member counts it.
func (s Scale) counted(click int) int {
	if s.FromHard {
		return s.Clicks - click
	}
	return click
}

func (s Scale) stop() string {
	if s.FromHard {
		return "hard"
	}
	return "soft"
}

// Ticks puts a number under some of the clicks, in the member's counting.
func (s Scale) Ticks(_, _ float64) []plot.Tick {
	every := 1 + s.Clicks/12
	var ticks []plot.Tick
	for click := 0; click <= s.Clicks; click++ {
		if counted := s.counted(click); counted%every == 0 {
			ticks = append(ticks, plot.Tick{Value: float64(click), Label: fmt.Sprint(counted)})
		}
	}
	return ticks
}

// panel is an empty plot with its type and grid set.
func panel(s Scale, title, upward string) *plot.Plot {
	p := plot.New()
	p.Title.Text = title
	p.Title.TextStyle.Font = face(titleSize)
	p.X.Label.Text = fmt.Sprintf("soft  ←  clicks from %s  →  hard", s.stop())
	p.Y.Label.Text = upward
	p.TextHandler, p.Title.TextStyle.Handler, p.Legend.TextStyle.Handler = writing, writing, writing
	for _, axis := range []*plot.Axis{&p.X, &p.Y} {
		axis.Label.TextStyle.Font = face(labelSize)
		axis.Tick.Label.Font = face(labelSize)
		axis.Label.TextStyle.Handler, axis.Tick.Label.Handler = writing, writing
	}
	p.X.Min, p.X.Max = 0, float64(s.Clicks)
	p.X.Tick.Marker = s
	return p
}

// ruled is the grid, to be drawn after any shade and before any line.
func ruled() *plotter.Grid {
	g := plotter.NewGrid()
	g.Vertical.Color, g.Horizontal.Color = grid, grid
	return g
}

// line is a curve of one value a click, from the first on.
func line(first int, values []float64, width vg.Length, c color.Color, dashes []vg.Length) *plotter.Line {
	points := make(plotter.XYs, len(values))
	for i, v := range values {
		points[i] = plotter.XY{X: float64(first + i), Y: v}
	}
	return &plotter.Line{XYs: points, LineStyle: draw.LineStyle{Width: width, Color: c, Dashes: dashes}}
}

// word is a word beside a place, on a patch of ground of its own, so that no line
// runs through it. It is added after the lines.
type word struct {
	x, y       float64
	say        string
	across, up float64 // where of the word its place is, from −1 (end) to 0 (start)
	moved      vg.Point
}

// Plot draws the word, inside the panel.
func (w word) Plot(c draw.Canvas, p *plot.Plot) {
	style := text.Style{
		Color: ink, Font: face(labelSize), Handler: writing,
		XAlign: text.XAlignment(w.across), YAlign: text.YAlignment(w.up),
	}
	toX, toY := p.Transforms(&c)
	at := vg.Point{X: toX(w.x), Y: toY(w.y)}.Add(w.moved)
	box := style.Rectangle(w.say).Add(at)
	at.X += max(0, c.Min.X+wordPad-box.Min.X) - max(0, box.Max.X-c.Max.X+wordPad)
	at.Y += max(0, c.Min.Y+wordPad-box.Min.Y) - max(0, box.Max.Y-c.Max.Y+wordPad)
	box = style.Rectangle(w.say).Add(at)
	low, high := box.Min.Sub(vg.Point{X: wordPad, Y: wordPad}), box.Max.Add(vg.Point{X: wordPad, Y: wordPad})
	c.FillPolygon(color.White, []vg.Point{low, {X: high.X, Y: low.Y}, high, {X: low.X, Y: high.Y}})
	c.FillText(style, at, w.say)
}

// wordPad is how far the ground of a word reaches beyond it.
const wordPad = vg.Length(3)

// titleRoom is the width that a title has, in ems.
const titleRoom = float64((side - 30) / titleSize)

// write draws panels one above the other, the title above all.
func write(out io.Writer, title string, panels []*plot.Plot) error {
	if len(panels) == 0 {
		return errors.New("there is no axle to draw")
	}
	panels[0].Title.Text = typeset.Cut(title, typeset.Regular, titleRoom) + "\n" + panels[0].Title.Text
	canvas := vgimg.NewWith(vgimg.UseWH(side, side), vgimg.UseDPI(dotsAnInch), vgimg.UseBackgroundColor(color.White))
	tiles := draw.Tiles{Rows: len(panels), Cols: 1, PadTop: 6, PadBottom: 6, PadLeft: 6, PadRight: 18, PadY: 16}
	rows := make([][]*plot.Plot, len(panels))
	for i, p := range panels {
		rows[i] = []*plot.Plot{p}
	}
	for i, row := range plot.Align(rows, tiles, draw.New(canvas)) {
		panels[i].Draw(row[0])
	}
	return png.Encode(out, grey(canvas.Image()))
}

// grey keeps one number a pixel, a quarter of the work and of the size.
func grey(drawn image.Image) *image.Gray {
	picture := image.NewGray(drawn.Bounds())
	imagedraw.Draw(picture, picture.Rect, drawn, picture.Rect.Min, imagedraw.Src)
	return picture
}

// short cuts a text that is longer than so many characters.
func short(text string, most int) string {
	if runes := []rune(text); len(runes) > most {
		return string(runes[:most-1]) + "…"
	}
	return text
}

// finite tells whether a value can be drawn.
func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
