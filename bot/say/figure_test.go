package say

import (
	"slices"
	"strings"
	"testing"

	"detent/tuning"
)

func TestEveryFigureHasWords(t *testing.T) {
	bases := map[string]bool{}
	for _, f := range tuning.Figures {
		bases[f.Base] = true
		if words := figureWords[f.Base]; words.shown == "" || words.help == "" {
			t.Errorf("%s has no words", f.Base)
		}
		if ends := strings.Count(FigureHelp(f), string(f.Part)); f.Part != tuning.WholeCar && ends != 1 || strings.Contains(FigureHelp(f), "%") {
			t.Errorf("%s is %q", f.Name, FigureHelp(f))
		}
	}
	for base := range figureWords {
		if !bases[base] {
			t.Errorf("there are words for %s, which is no figure", base)
		}
	}
}

func TestFigures(t *testing.T) {
	var car tuning.Car
	if lines := Figures(car, false); lines != nil {
		t.Errorf("of nothing it says %q", lines)
	}
	for name, v := range map[string]float64{"mass": 1250, "cg-height": 0.48, "track-front": 1.48, "spring-front": 70e3, "tyre-rate-front": 210e3, "bar-rear": 0} {
		f, ok := tuning.FigureNamed(name)
		if !ok {
			t.Fatalf("there is no figure %s", name)
		}
		f.Set(&car, v)
	}
	want := []string{
		"Mass 1250 kg, centre of gravity 0.48 m.",
		"Front: track 1.48 m, spring 70 N/mm, tyre 210 N/mm.",
		"Rear: bar 0 N/mm.",
	}
	if got := Figures(car, false); !slices.Equal(got, want) {
		t.Errorf("it says %q", got)
	}
}
