package say

import (
	"slices"
	"testing"

	"detent/tuning"
	"detent/tuning/tuningtest"
)

func TestCautions(t *testing.T) {
	tuningtest.SaysEach(t, "../../tuning", cautions)
	const before = "Turn gently, never force past a stop, and count from the stop the maker names."
	if got := Cautions([]tuning.Caution{tuning.Gently, before}); !slices.Equal(got, []string{before, before}) {
		t.Errorf("they are said as %q", got)
	}
}
