package typeset

import (
	"strings"

	"github.com/go-text/typesetting/font"
	"github.com/go-text/typesetting/font/opentype"
)

// Line is a line of shaped text, from its left end to its right.
type Line struct {
	Width    float64 // in ems
	Clusters []Cluster
	text     string
}

// Cluster is a character, or several that are drawn as one: a letter with its
// marks, a ligature.
type Cluster struct {
	Text        string  // as it was written
	X           float64 // from the left end of the line, in ems
	Width       float64 // in ems
	RightToLeft bool
	Glyphs      []Glyph
}

// Glyph is one outline of a cluster.
type Glyph struct {
	X, Y     float64 // of its origin, from the left end of the line and up from the foot of its letters, in ems
	ID       uint32  // in its font
	Embolden float64 // how broad a stroke round the outline makes it bold, in ems; 0 for none
	face     *font.Face
}

// Pen draws outlines: contours of straight lines and of quadratic and cubic
// curves, filled by the non-zero rule. Places are in ems.
type Pen interface {
	Move(x, y float64)
	Line(x, y float64)
	Quad(cx, cy, x, y float64)
	Cube(cx, cy, dx, dy, x, y float64)
	Close()
}

// Draw draws the outline of a glyph where it stands in its line. A space has
// none.
func (g Glyph) Draw(pen Pen) {
	outline, ok := g.face.GlyphDataOutline(font.GID(g.ID))
	if !ok || len(outline.Segments) == 0 {
		return
	}
	em := float64(g.face.Upem())
	x := func(p opentype.SegmentPoint) float64 { return g.X + float64(p.X)/em }
	y := func(p opentype.SegmentPoint) float64 { return g.Y + float64(p.Y)/em }
	for i, s := range outline.Segments {
		a, b, c := s.Args[0], s.Args[1], s.Args[2]
		switch s.Op {
		case opentype.SegmentOpMoveTo:
			if i > 0 {
				pen.Close()
			}
			pen.Move(x(a), y(a))
		case opentype.SegmentOpLineTo:
			pen.Line(x(a), y(a))
		case opentype.SegmentOpQuadTo:
			pen.Quad(x(a), y(a), x(b), y(b))
		case opentype.SegmentOpCubeTo:
			pen.Cube(x(a), y(a), x(b), y(b), x(c), y(c))
		}
	}
	pen.Close()
}

// Text is the line as it was written, in the order of reading.
func (l Line) Text() string { return l.text }

// Set shapes one line of text, however long it becomes. Characters that only
// direct others are followed and not drawn; the text should be [Readable].
func Set(text string, w Weight) Line {
	s := borrow(w)
	defer s.giveBack()
	runes := tame(strings.ReplaceAll(text, "\n", " "))
	return s.line(runes, levelsOf(runes), 0, len(runes))
}

// Cut shortens a text, with "…" at its end, until it is no wider than most ems.
func Cut(text string, w Weight, most float64) string {
	cut := text
	for runes := []rune(text); Set(cut, w).Width > most && len(runes) > 0; {
		runes = runes[:len(runes)-1]
		cut = strings.TrimSpace(string(runes)) + "…"
	}
	return cut
}
