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
	for _, f := range tuning.Figures {
		if f.Part != tuning.RearPart {
			f.Set(&car, f.Usual)
		}
	}
	bar, _ := tuning.FigureNamed("bar-rear")
	bar.Set(&car, 0)
	want := []string{
		"Mass 1250 kg, front share 54 %, wheelbase 2.55 m, centre of gravity 0.48 m, torque at the front 40 %.",
		"Front: track 1.48 m, spring 70 N/mm, motion ratio 0.95, bar 20 N/mm, unsprung 36 kg, tyre 210 N/mm.",
		"Rear: bar 0 N/mm.",
	}
	if got := Figures(car, false); !slices.Equal(got, want) {
		t.Errorf("it says %q", got)
	}
}
