package sheet

import (
	"bytes"
	"compress/zlib"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"codeberg.org/go-fonts/liberation/liberationsansbold"

	"detent/bot/typeset"
	"detent/bot/typeset/typesettest"
)

// drawnOutlines are read from the file, where a place has two digits after the point
// and every curve is a cubic one.
var drawnOutlines = typesettest.Outlines{Short: 2e-3, Within: 8e-3, Ends: true}

// TestTitlesReadBack finds every letter of a title in the page, by its outline
// and by the text that lies over it.
func TestTitlesReadBack(t *testing.T) {
	for _, s := range typesettest.Scripts {
		var out bytes.Buffer
		if err := (Page{Title: s.Text, Made: made}).Write(&out); err != nil {
			t.Fatal(err)
		}
		if read := strings.ReplaceAll(wordsOf(t, out.Bytes()), "\n", ""); read != s.Read {
			t.Errorf("%s: reads %q, want %q", s.Name, read, s.Read)
		}
		if s.Drawn == "" {
			continue
		}
		got, want := outlinesOf(t, out.Bytes()), drawnOutlines.Of(t, s, liberationsansbold.TTF)
		if !drawnOutlines.Same(got, want) {
			t.Errorf("%s: the %d contours of %q are not the %d of %q", s.Name, len(got), s.Text, len(want), s.Drawn)
		}
	}
}

// titleEm is the size of a title on a page that has nothing else, in points.
const titleEm = 17 * largest

// outlinesOf reads the filled outlines of a page back: where the lines and
// curves of each contour end.
func outlinesOf(t *testing.T, pdf []byte) (contours []typesettest.Contour) {
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
			drawnOutlines.Add(&contours[len(contours)-1], (x-at[0])/titleEm, (y-at[1])/titleEm)
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
	for _, s := range typesettest.Scripts {
		long := typeset.Isolate(strings.TrimSpace(strings.Repeat(s.Text+" ", 12)))
		p := Page{Title: long, Under: long + ": Sat 16 May", Made: made, Rows: [][]Section{{
			{Head: s.Name, Table: Table{Head: []string{"a", "b", "c"}, Center: true, Rows: [][]string{{long, long, long}}}}}}}
		var out bytes.Buffer
		if err := p.Write(&out); err != nil {
			t.Fatal(err)
		}
		if pages(out.Bytes()) != 1 {
			t.Errorf("%s: %d pages", s.Name, pages(out.Bytes()))
		}
		n := &pen{pdf: p.paper(), scale: 1}
		n.set(regular, body)
		_, em := n.pdf.GetFontSize()
		for _, l := range n.lines(long, 40) {
			if l.shaped != nil && l.shaped.Width*em > 40.01 {
				t.Errorf("%s: a line of %.1f mm in a cell of 40", s.Name, l.shaped.Width*em)
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
