package spelling

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestDidYouMean(t *testing.T) {
	for word, want := range map[string]string{
		"symptm": " (did you mean symptom?)", "SYMPTOM": " (did you mean symptom?)", "sympxxx": "",
		"smyptom": " (did you mean symptom?)", "fl": "", "": "", "xyzxyz": "",
	} {
		if got := DidYouMean(word, []string{"symptom", "baseline"}); got != want {
			t.Errorf("%q: %q, want %q", word, got, want)
		}
	}
}

// Distances are counted in characters: a word of another script is as long as
// it looks, and near only to what looks like it.
func TestDidYouMeanInFiveScripts(t *testing.T) {
	for _, tt := range []struct {
		word  string
		right []string
		want  string
	}{
		{"зад", []string{"front", "rear"}, ""},    // Russian: rear
		{"задний", []string{"front", "rear"}, ""}, // Russian: rear
		{"πίσω", []string{"front", "rear"}, ""},   // Greek: behind
		{"后", []string{"front", "rear"}, ""},      // Chinese: behind
		{"אחורי", []string{"front", "rear"}, ""},  // Hebrew: rear
		{"خلفي", []string{"front", "rear"}, ""},   // Arabic: rear
		{"Синяя машына", []string{"Синяя машина", "Серая"}, "Синяя машина"},
		{"μπλέ", []string{"μπλε", "γκρι"}, "μπλε"},
		{"蓝色掀背車", []string{"蓝色掀背车"}, "蓝色掀背车"},
		{"כחלוה", []string{"כחולה"}, "כחולה"}, // two letters swapped
		{"כדולס", []string{"כחולה"}, ""},      // two slips in five letters are too far
		{"כחוול", []string{"כחול"}, "כחול"},
		{"زرقاا", []string{"زرقاء"}, "زرقاء"},
	} {
		if got, _ := Nearest(tt.word, tt.right); got != tt.want {
			t.Errorf("%q among %q: %q, want %q", tt.word, tt.right, got, tt.want)
		}
	}
}

func TestOppositesAreNeverOffered(t *testing.T) {
	for _, tt := range []struct {
		word  string
		right []string
		want  string
	}{
		{"understeer", []string{"oversteer"}, ""}, {"oversteer", []string{"understeer"}, ""}, {"nderstear", []string{"oversteer"}, ""},
		{"stiffer", []string{"softer"}, ""}, {"softer", []string{"stiffer"}, ""}, {"sofd", []string{"hard"}, ""},
		{"spring-rear", []string{"spring-front"}, ""}, {"spring-reer", []string{"spring-front"}, ""}, {"spring-reer", []string{"spring-front", "spring-rear"}, "spring-rear"},
		{"low-bump", []string{"low-rebound"}, ""}, {"low-rebund", []string{"low-bump", "low-rebound"}, "low-rebound"},
		{"oversteer", []string{"understeer", "oversteer"}, "oversteer"},
	} {
		if got, _ := Nearest(tt.word, tt.right); got != tt.want {
			t.Errorf("%q among %q: %q, want %q", tt.word, tt.right, got, tt.want)
		}
	}
}

// What is offered is never farther than a third of the word.
func TestNearestIsNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word, right := rapid.String().Draw(t, "word"), rapid.SliceOfN(rapid.String(), 1, 4).Draw(t, "right")
		best, ok := Nearest(word, right)
		if d := slips(strings.ToLower(word), strings.ToLower(best)); ok && 3*d > len([]rune(strings.ToLower(word))) {
			t.Errorf("%q for %q, %d away", best, word, d)
		}
	})
}
