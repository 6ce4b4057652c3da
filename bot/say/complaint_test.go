package say_test

import (
	"testing"

	"detent/bot/say"
	"detent/tuning"
)

func TestComplaints(t *testing.T) {
	rear := tuning.Rear
	for want, c := range map[string]tuning.Complaint{
		"understeer on exit":           {What: tuning.Understeer, Where: tuning.Exit},
		"oversteer in mid-corner":      {What: tuning.Oversteer, Where: tuning.Mid},
		"oversteer":                    {What: tuning.Oversteer},
		"hops over bumps":              {What: tuning.Hops, Where: tuning.Exit},
		"sinks over bumps at the rear": {What: tuning.PacksDown, Axle: &rear},
	} {
		if got := say.Complaint(c); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
