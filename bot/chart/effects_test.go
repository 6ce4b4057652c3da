package chart

import (
	"bytes"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// someEffects are as many as a page lists.
func someEffects() Effects {
	e := Effects{Title: "Blue hatch"}
	for i := range 7 {
		f := float64(i)
		e.Rows = append(e.Rows, Effect{"Understeer on entry: front and rear high-speed rebound 3 stiffer", 0.9 - 0.2*f, 0.1 - 0.4*f, 1.7, 5 - i%3})
	}
	return e
}

func TestEffects(t *testing.T) {
	var out bytes.Buffer
	if err := someEffects().Draw(&out); err != nil {
		t.Fatal(err)
	}
	if *keep {
		if err := os.WriteFile(filepath.Join(os.TempDir(), "detent-effects.png"), out.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	picture, err := png.Decode(&out)
	if err != nil {
		t.Fatal(err)
	}
	if b := picture.Bounds(); b.Dx() != Side || b.Dy() != Side {
		t.Errorf("the picture has %v", b)
	}
	alt := someEffects().Alt()
	for _, words := range []string{"Blue hatch: what each turn does", "rebound 3 stiffer: 0.9, from 0.1 to 1.7; tries: 5"} {
		if !strings.Contains(alt, words) {
			t.Errorf("the words lack %q: %s", words, alt)
		}
	}
	if utf8.RuneCountInString(alt) > MaxAlt {
		t.Errorf("the words have %d characters", utf8.RuneCountInString(alt))
	}
}

func TestEffectsThatCannotBeDrawn(t *testing.T) {
	for _, e := range []Effects{{}, {Rows: []Effect{{Name: "x", Mean: math.NaN()}}}, {Rows: []Effect{{Name: "x", High: math.Inf(1)}}}} {
		if err := e.Draw(&bytes.Buffer{}); err == nil {
			t.Errorf("%+v is drawn", e)
		}
	}
}

func TestTicksOfMarks(t *testing.T) {
	var labels []string
	for _, tick := range (wholeMarks{}).Ticks(-1.3, 2) {
		labels = append(labels, tick.Label)
	}
	if got := strings.Join(labels, " "); got != "-1 0 +1 +2" {
		t.Errorf("the marks are %q", got)
	}
}
