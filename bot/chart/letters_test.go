package chart

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"
	"gonum.org/v1/plot/vg/vgimg"

	"detent/bot/typeset"
)

// scripts are names with what is drawn for them from left to right: the
// characters whose shapes stand in the fonts, joined Arabic letters by their
// presentation forms.
var scripts = []struct{ name, font, text, drawn string }{
	{"Han", "han", "蓝色闪电", "蓝色闪电"},
	{"Hangul", "hangul", "푸른번개", "푸른번개"},
	{"Hebrew", "", "רכב כחול", "לוחכבכר"},
	{"Arabic", "arabic", "سيارة", "ﺓﺭﺎﻴﺳ"},
	{"Thai", "thai", "รถ", "รถ"},
	{"Tamil", "tamil", "கெ", "\u0bc6க"},
	{"Greek and Hebrew", "", "Μπλε רכב 12", "Μπλε12בכר"},
}

// contour is an outline as it was drawn: the steps from point to point, in em.
type contour [][2]float64

// add adds a step, unless it leads nowhere.
func (c *contour) add(dx, dy float64) {
	if math.Abs(dx)+math.Abs(dy) > 1e-6 {
		*c = append(*c, [2]float64{dx, dy})
	}
}

// same tells whether two contours are the same, but that the other library
// rounds the points between two curves to whole units of the font.
func same(a, b contour) bool {
	return slices.EqualFunc(a, b, func(p, q [2]float64) bool { return math.Abs(p[0]-q[0])+math.Abs(p[1]-q[1]) < 5e-3 })
}

// contoursOf reads back what was filled on a canvas, in em of a size.
func contoursOf(actions []recorder.Action, size vg.Length) (contours []contour) {
	for _, a := range actions {
		fill, ok := a.(*recorder.Fill)
		if !ok {
			continue
		}
		var at vg.Point
		for _, c := range fill.Path {
			step := func(p vg.Point) {
				contours[len(contours)-1].add(float64((p.X-at.X)/size), float64((p.Y-at.Y)/size))
				at = p
			}
			switch c.Type {
			case vg.MoveComp:
				contours, at = append(contours, nil), c.Pos
			case vg.LineComp:
				step(c.Pos)
			case vg.CurveComp:
				for _, p := range append(c.Control, c.Pos) {
					step(p)
				}
			}
		}
	}
	return contours
}

// expected are the contours of characters as another library finds them in
// the font.
func expected(t *testing.T, file, drawn string) (contours []contour) {
	t.Helper()
	data := liberationsansregular.TTF
	if file != "" {
		var err error
		if data, err = os.ReadFile("../typeset/fonts/" + file + ".ttf"); err != nil {
			t.Fatal(err)
		}
	}
	f, err := sfnt.Parse(data)
	if err != nil {
		t.Fatal(err)
	}
	em := f.UnitsPerEm()
	for _, r := range drawn {
		id, err := f.GlyphIndex(nil, r)
		if err != nil || id == 0 {
			t.Fatalf("%q is not in %q", r, file)
		}
		segments, err := f.LoadGlyph(nil, id, fixed.I(int(em)), nil)
		if err != nil {
			t.Fatal(err)
		}
		var at fixed.Point26_6
		for _, s := range segments {
			points := map[sfnt.SegmentOp]int{sfnt.SegmentOpMoveTo: 1, sfnt.SegmentOpLineTo: 1, sfnt.SegmentOpQuadTo: 2, sfnt.SegmentOpCubeTo: 3}[s.Op]
			if s.Op == sfnt.SegmentOpMoveTo {
				contours, at = append(contours, nil), s.Args[0]
				continue
			}
			for _, p := range s.Args[:points] {
				unit := 64 * float64(em)
				contours[len(contours)-1].add(float64(p.X-at.X)/unit, -float64(p.Y-at.Y)/unit)
				at = p
			}
		}
	}
	return contours
}

// TestNamesAreDrawnInTheirScripts reads the outlines of a title back from the
// canvas and finds the letters in them, from left to right.
func TestNamesAreDrawnInTheirScripts(t *testing.T) {
	for _, s := range scripts {
		canvas := &recorder.Canvas{}
		style := text.Style{Color: ink, Font: face(titleSize), Handler: writing, XAlign: text.XCenter}
		writing.Draw(canvas, s.text, style, vg.Point{X: 100, Y: 50})
		got := contoursOf(canvas.Actions, titleSize)
		want := expected(t, s.font, s.drawn)
		if !slices.EqualFunc(got, want, same) {
			t.Errorf("%s: %d contours are drawn for %q, want the %d of %q", s.name, len(got), s.text, len(want), s.drawn)
		}
	}
}

// TestTitlesStayInside draws long names of each script: all ink of the title
// stands inside the picture, and some at all.
func TestTitlesStayInside(t *testing.T) {
	for i, s := range scripts {
		for _, name := range []string{s.text, strings.Repeat(s.text+" ", 20)} {
			w := windows()
			w.Title = typeset.Isolate(strings.TrimSpace(name)) + ", bumpy track"
			picture := drawn(t, w, fmt.Sprintf("script-%d-%d", i, len(name)))
			first, last := inkOf(picture, image.Rect(0, 0, Side, titleFoot))
			if first < 4 || last > Side-4 || last-first < 150 {
				t.Errorf("%s: the title reaches from %d to %d of %d", s.name, first, last, Side)
			}
		}
	}
}

// titleFoot is how far down the first line of the title reaches, in pixels.
const titleFoot = 45

// inkOf is the first and last column of a part of a picture that has ink.
func inkOf(picture *image.Gray, part image.Rectangle) (first, last int) {
	first = part.Max.X
	for x := part.Min.X; x < part.Max.X; x++ {
		for y := part.Min.Y; y < part.Max.Y; y++ {
			if picture.GrayAt(x, y).Y < 0x60 {
				first, last = min(first, x), x
			}
		}
	}
	return first, last
}

// TestShapedAndPlainStandAlike draws Latin both ways, at every alignment and
// turned as the words of an axis are: the ink is in the same place.
func TestShapedAndPlainStandAlike(t *testing.T) {
	for _, style := range []text.Style{
		{XAlign: text.XCenter, YAlign: text.YTop}, {XAlign: text.XRight, YAlign: text.YBottom}, {Rotation: math.Pi / 2, XAlign: text.XCenter},
	} {
		style.Color, style.Font = ink, face(titleSize)
		spots := map[bool]image.Rectangle{}
		for _, shaped := range []bool{false, true} {
			words := "Hxg"
			if shaped {
				words = "\u2068Hxg\u2069" // the marks make it shaped and are not drawn
			}
			spots[shaped] = spotOf(t, style, words)
		}
		for _, off := range []int{spots[true].Min.X - spots[false].Min.X, spots[true].Min.Y - spots[false].Min.Y,
			spots[true].Max.X - spots[false].Max.X, spots[true].Max.Y - spots[false].Max.Y} {
			if off < -1 || off > 1 {
				t.Errorf("%+v: the ink is in %v plain and in %v shaped", style, spots[false], spots[true])
				break
			}
		}
	}
}

func TestUnknownLettersLeaveNoBoxes(t *testing.T) {
	var with, without bytes.Buffer
	a, b := windows(), windows()
	a.Title, _ = typeset.Readable("Blue 🏎 hatch")
	b.Title = "Blue  hatch"
	if err := a.Draw(&with); err != nil {
		t.Fatal(err)
	}
	if err := b.Draw(&without); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(with.Bytes(), without.Bytes()) {
		t.Error("a sign that cannot be drawn leaves a trace")
	}
}

// spotOf is where the ink of some words is.
func spotOf(t *testing.T, style text.Style, words string) image.Rectangle {
	t.Helper()
	canvas := vgimg.NewWith(vgimg.UseWH(4*vg.Inch, 4*vg.Inch), vgimg.UseDPI(dotsAnInch), vgimg.UseBackgroundColor(color.White))
	style.Handler = writing
	writing.Draw(canvas, words, style, vg.Point{X: 2 * vg.Inch, Y: 2 * vg.Inch})
	picture, spot := grey(canvas.Image()), image.Rectangle{}
	for y := range picture.Rect.Max.Y {
		for x := range picture.Rect.Max.X {
			if picture.GrayAt(x, y).Y < 0x80 {
				spot = spot.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	if spot.Empty() {
		t.Fatalf("%q leaves no ink", words)
	}
	return spot
}
