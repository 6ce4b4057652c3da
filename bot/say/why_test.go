package say

import (
	"testing"

	"detent/tuning"
	"detent/tuning/tuningtest"
)

func TestWhy(t *testing.T) {
	tuningtest.SaysEach(t, "../../tuning", whys)
	tuningtest.SaysEach(t, "../../tuning", watches)
	for got, want := range map[string]string{
		Why(tuning.WhyBodyHeldDown):  "Holds the body down once it has moved.",
		Why("it pushes, says Kim"):   "it pushes, says Kim",
		Watch(tuning.WatchMoreDive):  "more dive",
		Watch("a light rear, again"): "a light rear, again",
		Watch(""):                    "",
	} {
		if got != want {
			t.Errorf("it is said as %q, want %q", got, want)
		}
	}
}
