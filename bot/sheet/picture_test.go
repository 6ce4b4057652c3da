package sheet

import (
	"bytes"
	"image"
	"image/png"
	"testing"
)

// strip is a picture three times as wide as it is tall.
func strip(t *testing.T) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := png.Encode(&out, image.NewGray(image.Rect(0, 0, 90, 30))); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestPicturesStandOnThePage(t *testing.T) {
	side := Section{Head: "Best laps", Points: []string{"Windy Hill, dry: 1:42.600"}}
	with := Page{Title: "Blue hatch", Made: made, Rows: [][]Section{{{Head: "The year", Picture: strip(t), Wide: 2}, side}}}
	pdf, words := render(t, with)
	if pages(pdf) != 1 || !bytes.Contains(pdf, []byte("/Subtype /Image")) || !bytes.Contains([]byte(words), []byte("Best laps")) {
		t.Errorf("%d pages, which read %q", pages(pdf), words)
	}
	again, _ := render(t, with)
	if !bytes.Equal(pdf, again) {
		t.Error("the same page is another file")
	}
	without := with
	without.Rows = [][]Section{{{Head: "The year", Wide: 2}, side}}
	const wide = (width - 2*margin - gap) * 2 / 3
	if taller := with.measure(with.paper(), 1) - without.measure(without.paper(), 1); taller < wide/3-10 || taller > wide/3 {
		t.Errorf("the picture makes the page %.1f mm longer, itself it is %.1f tall", taller, wide/3)
	}
	if half, whole := with.measure(with.paper(), 0.5), with.measure(with.paper(), 1); half > 0.6*whole {
		t.Errorf("at half the size the page is %.0f mm long, whole %.0f", half, whole)
	}
}

func TestWhatIsNoPictureLeavesNothing(t *testing.T) {
	if pdf, _ := render(t, Page{Title: "Blue hatch", Made: made, Rows: [][]Section{{{Picture: []byte("no picture")}}}}); pages(pdf) != 1 || bytes.Contains(pdf, []byte("/Subtype /Image")) {
		t.Error("something is drawn")
	}
}
