package typeset

import (
	"strings"
	"testing"
)

// mirrors turns brackets back that are drawn mirrored: the clusters keep the
// text as it was written.
var mirrors = strings.NewReplacer("(", ")", ")", "(")

// drawnOrder is a line as it reads from left to right.
func drawnOrder(l Line) string {
	var b strings.Builder
	for _, c := range l.Clusters {
		if c.RightToLeft {
			b.WriteString(mirrors.Replace(c.Text))
			continue
		}
		b.WriteString(c.Text)
	}
	return b.String()
}

// TestMixedDirections holds the order against what GNU FriBidi 1.0.8 gave for
// the same text (fribidi --nopad --nobreak --clean).
func TestMixedDirections(t *testing.T) {
	for text, want := range map[string]string{
		"Blue שלום hatch":            "Blue םולש hatch",
		"שלום 12 abc":                "abc 12 םולש",
		"abc שלום 12 עולם def":       "abc םלוע 12 םולש def",
		"abc שלום 12def":             "abc 12 םולשdef",
		"שלום 12":                    "12 םולש",
		"רכב (כחול) 2":               "2 (לוחכ) בכר",
		"רכב Blue 3 כחול":            "לוחכ Blue 3 בכר",
		"abc שלום 1,5% עולם.":        "abc םלוע 1,5% םולש.",
		"abc (שלום) def":             "abc (םולש) def",
		"סיארה 12-34":                "12-34 הראיס",
		"abc שלום, עולם! def":        "abc םלוע ,םולש! def",
		"12 שלום":                    "םולש 12",
		"abc: שלום 12: 16 May":       "abc: 16 :12 םולש May",
		"at \u2068שלום 12\u2069: 16": "at 12 םולש: 16",
		"\u2068רכב 2\u2069 at \u2068מסלול 3\u2069: 16": "2 בכר at 3 לולסמ: 16",
		"at \u2068רכב 2B\u2069 16":                     "at 2B בכר 16",
		"\u2068Blue רכב 12 Z\u2069, bumpy track":       "Blue 12 בכר Z, bumpy track",
		"\u2068Blue רכב\u2069עולם":                     "םלועBlue בכר",
		"רכב \u2068Blue רכב 12 Z\u2069 כחול":           "לוחכ Blue 12 בכר Z בכר",
		"abc ١٢ שלום":                                  "abc םולש ١٢",
		"abc ١٢ def":                                   "abc ١٢ def",
	} {
		if got := drawnOrder(Set(text, Regular)); got != want {
			t.Errorf("%q is drawn %q, want %q", text, got, want)
		}
	}
}

// TestLinesRunOn: the clusters of a line stand side by side, each once.
func TestLinesRunOn(t *testing.T) {
	const text = "Blue רכב 12 سيارة زرقاء 車 कि hatch"
	line := Set(text, Regular)
	x, letters := 0.0, 0
	for _, c := range line.Clusters {
		if c.X < x-1e-9 || c.X > x+1e-9 {
			t.Errorf("%q stands at %.3f, the one before ends at %.3f", c.Text, c.X, x)
		}
		x += c.Width
		letters += len([]rune(c.Text))
	}
	if letters != len([]rune(text)) {
		t.Errorf("%d characters are drawn of %d", letters, len([]rune(text)))
	}
	if line.Text() != text {
		t.Errorf("the line reads %q", line.Text())
	}
}
