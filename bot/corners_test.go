package bot

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"detent/tuning"
)

func TestCornersOf(t *testing.T) {
	d := tuning.Damper{Ways: 2, Count: tuning.FromHard}
	d.Range[tuning.Bump], d.Range[tuning.Rebound] = 30, 30
	car := tuning.Car{Dampers: [tuning.Axles]tuning.Damper{d, d}}
	got := CornersOf(car, []tuning.Move{
		{Corner: tuning.RL, Adjuster: tuning.Rebound, From: 10, To: 13},
		{Corner: tuning.FL, Adjuster: tuning.Bump, From: -1, To: 14}, // nothing was known before
	})
	want := []Corner{
		{Corner: "FL", Adjuster: "bump", From: 14, To: 14, Range: 30, Turn: "none", Shown: "16 from hard"},
		{Corner: "RL", Adjuster: "rebound", From: 10, To: 13, Range: 30, Clicks: 3, Turn: "stiffer", Shown: "17 from hard"},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if n := len(Standing(car, tuning.Setting{})); n != 8 {
		t.Errorf("%d adjusters stand somewhere, want 8", n)
	}
}
