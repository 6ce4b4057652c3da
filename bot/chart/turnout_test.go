package chart

import (
	"bytes"
	"image"
	"strings"
	"testing"
	"unicode/utf8"

	"detent/bot/typeset"
)

// turnout is a year of so many events, whose names are of every script.
func turnout(events int) Turnout {
	t := Turnout{Title: "The club's 2026"}
	for e := range events {
		name := typeset.Isolate(seasonNames[e%len(seasonNames)])
		t.Rows = append(t.Rows, Attendance{Name: name, Day: "16 May", Cars: 3 * (e + 1) % 26, Felt: 2*e%7 - 1})
	}
	return t
}

func TestTurnoutsAreDrawn(t *testing.T) {
	for name, d := range map[string]Turnout{"one": turnout(1), "many": turnout(MostRows), "nobody": {Title: "2026", Rows: []Attendance{{Name: "Spring day"}}}} {
		picture := drawn(t, d, "turnout-"+name)
		tall := picture.Bounds().Dy()
		if wide := picture.Bounds().Dx(); wide != Side || tall > Side {
			t.Errorf("%s: the picture has %v", name, picture.Bounds())
		}
		if few := len(d.Rows) == 1; few != (tall < Side/3) {
			t.Errorf("%s: %d rows are %d pixels tall", name, len(d.Rows), tall)
		}
		if left, right := inkOf(picture, picture.Rect); left < 2 || right > Side-3 {
			t.Errorf("%s: the ink reaches from %d to %d of %d", name, left, right, Side)
		}
		if first, last := inkOf(picture, image.Rect(0, tall-4, Side, tall)); last > first {
			t.Errorf("%s: there is ink at the foot", name)
		}
		if alt := d.Alt(); utf8.RuneCountInString(alt) > MaxAlt || strings.ContainsRune(alt, '\u2068') {
			t.Errorf("%s: the words are %q", name, alt)
		}
	}
}

func TestATurnoutInWords(t *testing.T) {
	d := Turnout{Title: "The club's 2026", Rows: []Attendance{{"Spring day", "16 May", 12, 9}, {"June, 1 event", "", 1, -1}}}
	want := "The club's 2026: the cars that came to each event, and how many of their drivers said how it felt. Spring day, 16 May: 12 cars, 9 answered. June, 1 event: 1 car."
	if got := d.Alt(); got != want {
		t.Errorf("the words are %q", got)
	}
}

func TestTurnoutsThatCannotBeDrawn(t *testing.T) {
	for _, rows := range []int{0, MostRows + 1} {
		if err := turnout(rows).Draw(&bytes.Buffer{}); err == nil {
			t.Errorf("%d rows are drawn", rows)
		}
	}
}
