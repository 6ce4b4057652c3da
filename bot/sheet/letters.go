package sheet

import (
	"fmt"
	"slices"
	"strings"

	"codeberg.org/go-pdf/fpdf"

	"detent/bot/typeset"
)

// line is a line of text, broken to a width: letters of Liberation one after
// the other, or shaped where those would not write it.
type line struct {
	plain  string
	shaped *typeset.Line
}

// lines breaks text into lines of a width, in the style and size that were
// set.
func (n *pen) lines(text string, w float64) []line {
	_, em := n.pdf.GetFontSize()
	var lines []line
	for paragraph := range strings.SplitSeq(typeset.Sieve(text), "\n") {
		if typeset.NeedsShaping(paragraph) {
			for _, shaped := range typeset.Wrap(paragraph, n.weight, w/em) {
				lines = append(lines, line{shaped: &shaped})
			}
			continue
		}
		for _, words := range n.pdf.SplitText(paragraph, w) {
			lines = append(lines, line{plain: words})
		}
	}
	return lines
}

// write writes a line in a box, "L" at its left or "C" in its middle.
func (n *pen) write(l line, x, y, w, tall float64, align string) {
	if n.dry {
		return
	}
	if l.shaped == nil {
		n.pdf.SetXY(x, y)
		n.pdf.CellFormat(w, tall, l.plain, "", 0, align, false, 0, "")
		return
	}
	_, em := n.pdf.GetFontSize()
	if align == "C" {
		x += (w - l.shaped.Width*em) / 2
	}
	foot := y + tall/2 + 0.3*em // where CellFormat puts the foot of its letters
	n.pdf.SetFillColor(0, 0, 0)
	for _, c := range l.shaped.Clusters {
		for _, g := range c.Glyphs {
			n.outline(g, x, foot, em)
		}
		n.invisible(c, x, foot, em)
	}
}

// outline draws a glyph of a line that begins at a place.
func (n *pen) outline(g typeset.Glyph, x, foot, em float64) {
	path := outline{pdf: n.pdf, x: x, foot: foot, em: em}
	g.Draw(&path)
	switch {
	case !path.drawn:
	case g.Embolden > 0:
		n.pdf.SetLineWidth(g.Embolden * em)
		n.pdf.DrawPath("DF")
	default:
		n.pdf.DrawPath("F")
	}
}

// invisible writes the characters of a cluster over its outlines, to be found
// and copied. Readers take what stands on a page for drawn from left to right
// and turn right-to-left letters round, so those are written backwards.
func (n *pen) invisible(c typeset.Cluster, x, foot, em float64) {
	letters := []rune(c.Text)
	if c.RightToLeft {
		slices.Reverse(letters)
	}
	natural := n.pdf.GetStringWidth(c.Text)
	if natural <= 0 || c.Width <= 0 {
		return
	}
	n.pdf.SetTextRenderingMode(3)
	n.pdf.RawWriteStr(fmt.Sprintf("%.2f Tz", 100*c.Width*em/natural))
	n.pdf.Text(x+c.X*em, foot, string(letters))
	n.pdf.RawWriteStr("100 Tz")
	n.pdf.SetTextRenderingMode(0)
}

// outline draws a glyph as a path of the page, which counts downwards and in
// millimetres.
type outline struct {
	pdf         *fpdf.Fpdf
	x, foot, em float64
	lastX       float64 // in ems
	lastY       float64
	drawn       bool
}

func (o *outline) at(x, y float64) (right, down float64) {
	o.lastX, o.lastY = x, y
	return o.x + x*o.em, o.foot - y*o.em
}

func (o *outline) Move(x, y float64) {
	o.drawn = true
	o.pdf.MoveTo(o.at(x, y))
}

func (o *outline) Line(x, y float64) { o.pdf.LineTo(o.at(x, y)) }

// Quad draws a quadratic curve as the cubic one that has the same course.
func (o *outline) Quad(cx, cy, x, y float64) {
	ax, ay, bx, by := raise(o.lastX, o.lastY, cx, cy, x, y)
	o.Cube(ax, ay, bx, by, x, y)
}

// raise finds the control points of the cubic curve that is the same as a
// quadratic one: two thirds of the way from each end to its control point.
func raise(fromX, fromY, cx, cy, toX, toY float64) (ax, ay, bx, by float64) {
	return fromX + (cx-fromX)*2/3, fromY + (cy-fromY)*2/3, toX + (cx-toX)*2/3, toY + (cy-toY)*2/3
}

func (o *outline) Cube(cx, cy, dx, dy, x, y float64) {
	right1, down1 := o.at(cx, cy)
	right2, down2 := o.at(dx, dy)
	right, down := o.at(x, y)
	o.pdf.CurveBezierCubicTo(right1, down1, right2, down2, right, down)
}

func (o *outline) Close() { o.pdf.ClosePath() }
