package chart

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"math"
	"strings"
	"testing"

	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"
	"gonum.org/v1/plot/vg/vgimg"

	"detent/bot/typeset"
	"detent/bot/typeset/typesettest"
)

// drawnOutlines are read from the canvas. The other library rounds the points
// between two curves to whole units of the font.
var drawnOutlines = typesettest.Outlines{Short: 1e-6, Within: 5e-3}

// contoursOf reads back what was filled on a canvas, in em of a size.
func contoursOf(actions []recorder.Action, size vg.Length) (contours []typesettest.Contour) {
	for _, a := range actions {
		fill, ok := a.(*recorder.Fill)
		if !ok {
			continue
		}
		var at vg.Point
		for _, c := range fill.Path {
			step := func(p vg.Point) {
				drawnOutlines.Add(&contours[len(contours)-1], float64((p.X-at.X)/size), float64((p.Y-at.Y)/size))
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

// TestNamesAreDrawnInTheirScripts reads the outlines of a title back from the
// canvas and finds the letters in them, from left to right.
func TestNamesAreDrawnInTheirScripts(t *testing.T) {
	for _, s := range typesettest.Scripts {
		if s.Drawn == "" {
			continue
		}
		canvas := &recorder.Canvas{}
		style := text.Style{Color: ink, Font: face(titleSize), Handler: writing, XAlign: text.XCenter}
		writing.Draw(canvas, s.Text, style, vg.Point{X: 100, Y: 50})
		got := contoursOf(canvas.Actions, titleSize)
		want := drawnOutlines.Of(t, s, liberationsansregular.TTF)
		if !drawnOutlines.Same(got, want) {
			t.Errorf("%s: %d contours are drawn for %q, want the %d of %q", s.Name, len(got), s.Text, len(want), s.Drawn)
		}
	}
}

// TestTitlesStayInside draws long names of each script: all ink of the title
// stands inside the picture, and some at all.
func TestTitlesStayInside(t *testing.T) {
	for i, s := range typesettest.Scripts {
		for _, name := range []string{s.Text, strings.Repeat(s.Text+" ", 20)} {
			w := windows()
			w.Title = typeset.Isolate(strings.TrimSpace(name)) + ", bumpy track"
			picture := drawn(t, w, fmt.Sprintf("script-%d-%d", i, len(name)))
			first, last := inkOf(picture, image.Rect(0, 0, Side, titleFoot))
			if first < 4 || last > Side-4 || last-first < 150 {
				t.Errorf("%s: the title reaches from %d to %d of %d", s.Name, first, last, Side)
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
