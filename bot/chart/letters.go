package chart

import (
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"

	"detent/bot/typeset"
)

// letters is the plotting library's plain text. Text in scripts that cannot be
// set letter by letter is shaped and drawn as outlines.
type letters struct{ text.Plain }

// writing draws every word of a picture.
var writing = letters{text.Plain{Fonts: font.DefaultCache}}

// Box is how much room a line takes: its width, and its height above and below
// the foot of its letters.
func (l letters) Box(line string, face font.Font) (width, height, depth vg.Length) {
	width, height, depth = l.Plain.Box(line, face)
	if typeset.NeedsShaping(line) {
		width = vg.Length(typeset.Set(line, typeset.Regular).Width) * face.Size
	}
	return width, height, depth
}

// Draw writes lines as the style says, aligned and turned round a place.
func (l letters) Draw(c vg.Canvas, written string, style text.Style, at vg.Point) {
	if !typeset.NeedsShaping(written) {
		l.Plain.Draw(c, written, style, at)
		return
	}
	c.Push()
	defer c.Pop()
	c.SetColor(style.Color)
	c.Translate(at)
	c.Rotate(style.Rotation)
	size, lines := style.Font.Size, l.Lines(written)
	top := style.Height(written)*vg.Length(style.YAlign) - l.Extents(style.Font).Ascent // as Plain has it
	for i, words := range lines {
		line := typeset.Set(words, typeset.Regular)
		left := vg.Length(style.XAlign) * vg.Length(line.Width) * size
		outline := outlines{size: size, from: vg.Point{X: left, Y: top + vg.Length(len(lines)-i)*size}}
		for _, cluster := range line.Clusters {
			for _, glyph := range cluster.Glyphs {
				glyph.Draw(&outline)
			}
		}
		if len(outline.path) > 0 {
			c.Fill(outline.path)
		}
	}
}

// outlines collects the outlines of a line in a path.
type outlines struct {
	path vg.Path
	size vg.Length // of the type
	from vg.Point  // the left end of the line
}

// at is a place of ems on the canvas.
func (o *outlines) at(x, y float64) vg.Point {
	return o.from.Add(vg.Point{X: vg.Length(x) * o.size, Y: vg.Length(y) * o.size})
}

func (o *outlines) Move(x, y float64)         { o.path.Move(o.at(x, y)) }
func (o *outlines) Line(x, y float64)         { o.path.Line(o.at(x, y)) }
func (o *outlines) Quad(cx, cy, x, y float64) { o.path.QuadTo(o.at(cx, cy), o.at(x, y)) }
func (o *outlines) Cube(cx, cy, dx, dy, x, y float64) {
	o.path.CubeTo(o.at(cx, cy), o.at(dx, dy), o.at(x, y))
}
func (o *outlines) Close() { o.path.Close() }
