package learn

import (
	"testing"

	"detent/tuning"
	"detent/tuning/tuningtest"
)

func TestReading(t *testing.T) {
	type feel = tuning.Feel
	entry := func(v int) feel { return feel{Entry: mark(v)} }
	marked := func(v int, b tuning.Better) feel { return feel{Entry: mark(v), Better: b} }
	understeer, oversteer := tuning.Complaint{What: tuning.Understeer}, tuning.Complaint{What: tuning.Oversteer}
	at := func(c tuning.Complaint, where tuning.Where) tuning.Complaint { c.Where = where; return c }
	for _, tt := range []struct {
		name      string
		complaint tuning.Complaint
		before    *feel
		after     feel
		want      Reading // none when its variance is zero
	}{
		{"marks against understeer", understeer, &feel{Entry: mark(-2)}, entry(0), Reading{2, 1, true, false}},
		{"marks against oversteer", oversteer, &feel{Entry: mark(2)}, entry(1), Reading{1, 1, true, false}},
		{"marks that go the wrong way", oversteer, &feel{Entry: mark(1)}, entry(2), Reading{-1, 1, false, true}},
		{"marks that stay", understeer, &feel{Entry: mark(-1)}, entry(-1), Reading{0, 1, false, false}},
		{"past neutral to the other side", understeer, &feel{Entry: mark(-2)}, entry(1), Reading{3, 1, false, false}},
		{"past neutral, and yet better", understeer, &feel{Entry: mark(-2)}, marked(1, tuning.BetterYes), Reading{1.95, 0.6, true, false}},
		{"the mark of mid", at(understeer, tuning.Mid), &feel{Mid: mark(-2), Entry: mark(0)}, feel{Mid: mark(-1), Entry: mark(-3)}, Reading{1, 1, true, false}},
		{"the mark of exit", at(oversteer, tuning.Exit), &feel{Exit: mark(3)}, feel{Exit: mark(1)}, Reading{2, 1, true, false}},
		{"the mark of another part", at(oversteer, tuning.Exit), &feel{Entry: mark(3)}, entry(1), Reading{}},
		{"better", understeer, nil, feel{Better: tuning.BetterYes}, Reading{0.9, 0.8, true, false}},
		{"the same", understeer, nil, feel{Better: tuning.BetterSame}, Reading{0, 0.8, false, false}},
		{"worse", understeer, nil, feel{Better: tuning.BetterNo}, Reading{-0.9, 0.8, false, true}},
		{"marks and better", understeer, &feel{Entry: mark(-2)}, marked(-1, tuning.BetterYes), Reading{0.95, 0.6, true, false}},
		{"marks better, said the same", understeer, &feel{Entry: mark(-2)}, marked(-1, tuning.BetterSame), Reading{0.5, 0.6, true, false}},
		{"marks better, said worse", understeer, &feel{Entry: mark(-3)}, marked(-1, tuning.BetterNo), Reading{0.55, 0.6, false, true}},
		{"no mark before: only the words", understeer, &feel{}, marked(-1, tuning.BetterNo), Reading{-0.9, 0.8, false, true}},
		{"no mark after: only the words", understeer, &feel{Entry: mark(-1)}, feel{Better: tuning.BetterNo}, Reading{-0.9, 0.8, false, true}},
		{"neither", understeer, nil, entry(-1), Reading{}},
		{"grip", tuning.Complaint{What: tuning.LowGrip}, &feel{Grip: 5}, feel{Grip: 8}, Reading{1.5, 1, true, false}},
		{"grip and words", tuning.Complaint{What: tuning.LowGrip}, &feel{Grip: 6}, feel{Grip: 5, Better: tuning.BetterNo}, Reading{-0.7, 0.6, false, true}},
		{"grip of a run that did not say", tuning.Complaint{What: tuning.LowGrip}, &feel{}, feel{Grip: 5}, Reading{}},
		{"marks serve no other row", tuning.Complaint{What: tuning.Dives}, &feel{Entry: mark(-2), Grip: 3}, feel{Entry: mark(0), Grip: 9}, Reading{}},
		{"words serve every row", tuning.Complaint{What: tuning.Dives}, &feel{Entry: mark(-2)}, marked(0, tuning.BetterYes), Reading{0.9, 0.8, true, false}},
	} {
		got, ok := readFeels(tt.complaint, tt.before, tt.after)
		if ok != (tt.want.Variance > 0) {
			t.Errorf("%s: evidence is %v", tt.name, ok)
		}
		tuningtest.Within(t, tt.name+": y", got.Moved, tt.want.Moved, 1e-15)
		tuningtest.Within(t, tt.name+": R", got.Variance, tt.want.Variance, 1e-15)
		if got.Helped != tt.want.Helped || got.Worse != tt.want.Worse {
			t.Errorf("%s: helped %v, worse %v", tt.name, got.Helped, got.Worse)
		}
	}
}
