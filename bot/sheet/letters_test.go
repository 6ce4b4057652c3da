package sheet

import (
	"bytes"
	"compress/zlib"
	"io"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"detent/bot/typeset"
)

// scripts are titles with what is drawn of each from left to right: the text
// that is read back, and the characters whose shapes stand in the font, joined
// Arabic letters by their presentation forms.
var scripts = []struct{ name, font, title, read, drawn string }{
	{"Han", "han", "蓝色闪电", "蓝色闪电", "蓝色闪电"},
	{"Hangul", "hangul", "푸른 번개", "푸른 번개", "푸른번개"},
	{"Hebrew", "", "רכב כחול", "לוחכ בכר", "לוחכבכר"},
	{"Arabic", "arabic", "سيارة", "ةرايس", "ﺓﺭﺎﻴﺳ"},
	{"Thai", "thai", "รถ", "รถ", "รถ"},
	{"Tamil, the vowel sign before its letter", "tamil", "கெ", "கெ", "\u0bc6க"},
	{"Greek, Hebrew and a number", "", "Μπλε רכב 12", "Μπλε 12 בכר", "Μπλε12בכר"},
	{"Cyrillic with a mark", "", "Ще\u0301дрый", "Ще\u0301дрый", ""},
}

// TestTitlesReadBack finds every letter of a title in the page, by its outline
// and by the text that lies over it.
func TestTitlesReadBack(t *testing.T) {
	for _, s := range scripts {
		var out bytes.Buffer
		if err := (Page{Title: s.title, Made: made}).Write(&out); err != nil {
			t.Fatal(err)
		}
		if read := strings.ReplaceAll(wordsOf(t, out.Bytes()), "\n", ""); read != s.read {
			t.Errorf("%s: reads %q, want %q", s.name, read, s.read)
		}
		if s.drawn == "" {
			continue
		}
		got, want := outlinesOf(t, out.Bytes()), expected(t, s.font, s.drawn)
		if !slices.EqualFunc(got, want, same) {
			t.Errorf("%s: the %d contours of %q are not the %d of %q", s.name, len(got), s.title, len(want), s.drawn)
		}
	}
}

// contour is an outline as steps from point to point, in em.
type contour [][2]float64

func (c *contour) add(dx, dy float64) {
	if math.Abs(dx)+math.Abs(dy) > 2e-3 { // a place in the file has two digits after the point
		*c = append(*c, [2]float64{dx, dy})
	}
}

// same tells whether two contours are the same but for rounding.
func same(a, b contour) bool {
	return slices.EqualFunc(a, b, func(p, q [2]float64) bool { return math.Abs(p[0]-q[0])+math.Abs(p[1]-q[1]) < 8e-3 })
}

// titleEm is the size of a title on a page that has nothing else, in points.
const titleEm = 17 * largest

// outlinesOf reads the filled outlines of a page back: where the lines and
// curves of each contour end.
func outlinesOf(t *testing.T, pdf []byte) (contours []contour) {
	t.Helper()
	var at [2]float64
	for _, operator := range strings.Split(string(contentOf(t, pdf)), "\n") {
		fields := strings.Fields(operator)
		if len(fields) < 3 {
			continue
		}
		op, numbers := fields[len(fields)-1], fields[:len(fields)-1]
		if op != "m" && op != "l" && op != "c" {
			continue
		}
		x, errX := strconv.ParseFloat(numbers[len(numbers)-2], 64)
		y, errY := strconv.ParseFloat(numbers[len(numbers)-1], 64)
		if errX != nil || errY != nil {
			t.Fatalf("the operator %q", operator)
		}
		if op == "m" {
			contours = append(contours, nil)
		} else {
			contours[len(contours)-1].add((x-at[0])/titleEm, (y-at[1])/titleEm)
		}
		at = [2]float64{x, y}
	}
	return contours
}

// contentOf is what a page's content stream draws.
func contentOf(t *testing.T, pdf []byte) []byte {
	t.Helper()
	for _, stream := range streams.FindAllSubmatch(pdf, -1) {
		r, err := zlib.NewReader(bytes.NewReader(stream[1]))
		if err != nil {
			continue
		}
		if content, err := io.ReadAll(r); err == nil && bytes.Contains(content, []byte(" Tf ")) {
			return content
		}
	}
	t.Fatal("the page has no content")
	return nil
}

// expected are the contours of characters as another library's parser finds
// them in the font.
func expected(t *testing.T, file, drawn string) (contours []contour) {
	t.Helper()
	data := liberationsansbold.TTF
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
	unit := 64 * float64(f.UnitsPerEm())
	for _, r := range drawn {
		id, err := f.GlyphIndex(nil, r)
		if err != nil || id == 0 {
			t.Fatalf("%q is not in %q", r, file)
		}
		segments, err := f.LoadGlyph(nil, id, fixed.I(int(f.UnitsPerEm())), nil)
		if err != nil {
			t.Fatal(err)
		}
		var at fixed.Point26_6
		for _, s := range segments {
			end := map[sfnt.SegmentOp]int{sfnt.SegmentOpMoveTo: 0, sfnt.SegmentOpLineTo: 0, sfnt.SegmentOpQuadTo: 1, sfnt.SegmentOpCubeTo: 2}[s.Op]
			p := s.Args[end]
			if s.Op == sfnt.SegmentOpMoveTo {
				contours = append(contours, nil)
			} else {
				contours[len(contours)-1].add(float64(p.X-at.X)/unit, -float64(p.Y-at.Y)/unit)
			}
			at = p
		}
	}
	return contours
}

// TestQuadraticCurvesAreRaised holds the middle of a curve from (0, 0) by
// (1, 2) to (3, 0), a quarter of its ends and half of its control point,
// against that of the cubic one that is drawn for it.
func TestQuadraticCurvesAreRaised(t *testing.T) {
	cx, cy, dx, dy := raise(0, 0, 1, 2, 3, 0)
	x, y := (3*cx+3*dx+3)/8, (3*cy+3*dy+0)/8
	if math.Abs(x-1.25) > 1e-12 || math.Abs(y-1) > 1e-12 {
		t.Errorf("the middle is at %g, %g", x, y)
	}
}

// TestSignsAreLeftOut: a sign that no font has leaves nothing.
func TestSignsAreLeftOut(t *testing.T) {
	_, words := render(t, Page{Title: "Blue 🏎 hatch", Under: "\u202eWindy 🏁", Made: made})
	if words != "Blue  hatch\nWindy \n" {
		t.Errorf("the page reads %q", words)
	}
}

// TestLongNamesStayInTheirCells puts long names of each script into narrow
// columns and titles: every line of text begins and ends inside the page.
func TestLongNamesStayInTheirCells(t *testing.T) {
	for _, s := range scripts {
		long := typeset.Isolate(strings.TrimSpace(strings.Repeat(s.title+" ", 12)))
		p := Page{Title: long, Under: long + ": Sat 16 May", Made: made, Rows: [][]Section{{
			{Head: s.name, Table: Table{Head: []string{"a", "b", "c"}, Center: true, Rows: [][]string{{long, long, long}}}}}}}
		var out bytes.Buffer
		if err := p.Write(&out); err != nil {
			t.Fatal(err)
		}
		if pages(out.Bytes()) != 1 {
			t.Errorf("%s: %d pages", s.name, pages(out.Bytes()))
		}
		n := &pen{pdf: p.paper(), scale: 1}
		n.set(regular, body)
		_, em := n.pdf.GetFontSize()
		for _, l := range n.lines(long, 40) {
			if l.shaped != nil && l.shaped.Width*em > 40.01 {
				t.Errorf("%s: a line of %.1f mm in a cell of 40", s.name, l.shaped.Width*em)
			}
		}
	}
}

func BenchmarkPage(b *testing.B) {
	p := paddock(30)
	p.Title, p.Under = "رכב 车 नीली", "Windy Hill: רכב כחול, 蓝色闪电"
	for b.Loop() {
		if err := p.Write(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}
