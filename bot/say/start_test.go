package say

import (
	"slices"
	"testing"

	"detent/tuning"
	"detent/tuning/tuningtest"
)

func TestStartReasons(t *testing.T) {
	tuningtest.SaysEach(t, "../../tuning", startRules)
	got := StartReasons(tuning.StartReasons(tuning.Car{Drive: tuning.RearDrive, Use: tuning.RoadAndTrackUse}, tuning.Wet))
	want := []string{
		"Starts soft: just below the middle of each range.", "The driven rear is one step softer, to find grip.",
		"Wet: one step softer everywhere.", "Also driven on the road: bump one click softer.",
	}
	if !slices.Equal(got, want) {
		t.Errorf("they are said as %q, want %q", got, want)
	}
}
