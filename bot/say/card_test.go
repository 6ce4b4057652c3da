package say

import (
	"testing"

	"detent/tuning"
)

func TestCardTry(t *testing.T) {
	for want, try := range map[string]tuning.CardTry{
		"front rebound stiffer":                                   {Part: tuning.FrontPart, Job: tuning.AnyRebound, Turn: tuning.Stiffer, Far: tuning.FarStep},
		"rear bump slightly softer":                               {Part: tuning.RearPart, Job: tuning.AnyBump, Turn: tuning.Softer, Far: tuning.FarSlight},
		"all four bump softer by the back-off":                    {Part: tuning.WholeCar, Job: tuning.AnyBump, Turn: tuning.Softer, Far: tuning.FarBackOff},
		"that end's high-speed bump stiffer (or bump slightly)":   {Job: tuning.FastBump, Turn: tuning.Stiffer, Far: tuning.FarStep},
		"all four high-speed rebound softer (where there is one)": {Part: tuning.WholeCar, Job: tuning.FastRebound, Turn: tuning.Softer, Far: tuning.FarStep},
	} {
		if got := CardTry(try); got != want {
			t.Errorf("it is said as %q, want %q", got, want)
		}
	}
}
