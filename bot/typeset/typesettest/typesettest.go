// Package typesettest reads names back from what was drawn: the scripts that
// tests write names in, and the outlines that those have in the fonts by another
// library's parser.
package typesettest

import (
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"testing"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Script is a name in a script, with what is read of it and drawn of it from left
// to right.
type Script struct {
	Name  string
	Font  string // the file of its letters without its ending, "" for Liberation Sans
	Text  string
	Read  string // right-to-left letters backwards
	Drawn string // the characters whose shapes stand in the font, joined Arabic letters by their presentation forms; "" where no characters have them
}

// Scripts are names of every way to write.
var Scripts = []Script{
	{"Han", "han", "蓝色闪电", "蓝色闪电", "蓝色闪电"},
	{"Hangul", "hangul", "푸른 번개", "푸른 번개", "푸른번개"},
	{"Hebrew", "", "רכב כחול", "לוחכ בכר", "לוחכבכר"},
	{"Arabic", "arabic", "سيارة", "ةرايس", "ﺓﺭﺎﻴﺳ"},
	{"Thai", "thai", "รถ", "รถ", "รถ"},
	{"Tamil, the vowel sign before its letter", "tamil", "கெ", "கெ", "\u0bc6க"},
	{"Greek, Hebrew and a number", "", "Μπλε רכב 12", "Μπλε 12 בכר", "Μπλε12בכר"},
	{"Cyrillic with a mark", "", "Ще\u0301дрый", "Ще\u0301дрый", ""},
}

// Contour is an outline as steps from point to point, in ems.
type Contour [][2]float64

// Outlines is how exactly outlines are read back.
type Outlines struct {
	Short  float64 // a step of less, in ems, leads nowhere
	Within float64 // how far two steps may differ, in ems
	Ends   bool    // only where lines and curves end is compared, not what bends the curves
}

// Add adds a step to a contour, unless it leads nowhere.
func (o Outlines) Add(c *Contour, dx, dy float64) {
	if math.Abs(dx)+math.Abs(dy) > o.Short {
		*c = append(*c, [2]float64{dx, dy})
	}
}

// Same tells whether contours are the same but for rounding.
func (o Outlines) Same(a, b []Contour) bool {
	return slices.EqualFunc(a, b, func(a, b Contour) bool {
		return slices.EqualFunc(a, b, func(p, q [2]float64) bool { return math.Abs(p[0]-q[0])+math.Abs(p[1]-q[1]) < o.Within })
	})
}

// Of are the contours of a script's characters in its font; main is that of
// Liberation Sans.
func (o Outlines) Of(t testing.TB, s Script, main []byte) (contours []Contour) {
	t.Helper()
	f, err := sfnt.Parse(fontOf(t, s, main))
	if err != nil {
		t.Fatal(err)
	}
	em := f.UnitsPerEm()
	unit := 64 * float64(em)
	for _, r := range s.Drawn {
		id, err := f.GlyphIndex(nil, r)
		if err != nil || id == 0 {
			t.Fatalf("%q is not in %q", r, s.Font)
		}
		segments, err := f.LoadGlyph(nil, id, fixed.I(int(em)), nil)
		if err != nil {
			t.Fatal(err)
		}
		var at fixed.Point26_6
		for _, segment := range segments {
			points := segment.Args[:map[sfnt.SegmentOp]int{sfnt.SegmentOpMoveTo: 1, sfnt.SegmentOpLineTo: 1, sfnt.SegmentOpQuadTo: 2, sfnt.SegmentOpCubeTo: 3}[segment.Op]]
			if segment.Op == sfnt.SegmentOpMoveTo {
				contours, at = append(contours, nil), points[0]
				continue
			}
			if o.Ends {
				points = points[len(points)-1:]
			}
			for _, p := range points {
				o.Add(&contours[len(contours)-1], float64(p.X-at.X)/unit, -float64(p.Y-at.Y)/unit)
				at = p
			}
		}
	}
	return contours
}

// fontOf reads the font of a script from the folder of the package that draws it.
func fontOf(t testing.TB, s Script, main []byte) []byte {
	t.Helper()
	if s.Font == "" {
		return main
	}
	_, file, _, ok := runtime.Caller(0)
	if !ok {
		t.Fatal("this file is nowhere")
	}
	data, err := os.ReadFile(filepath.Join(filepath.Dir(file), "..", "fonts", s.Font+".ttf"))
	if err != nil {
		t.Fatal(err)
	}
	return data
}
