package ride

import (
	"testing"

	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

func TestEquivalentOfLinearIsItself(t *testing.T) {
	got := must[unit.Damping](t)(ordinaryCorner().Equivalent(linear(t, 1234), Road{Spectrum: 64e-6, Speed: 30}))
	tuningtest.Near(t, "equivalent", float64(got), 1234, 1e-10)
}

// The linear damping found for a damper with knees against a long run of the
// corner itself over white road, the same every time.
func TestEquivalentAgainstSimulation(t *testing.T) {
	for name, c := range map[string]struct {
		corner Corner
		damper Damper
	}{
		"digressive":  {ordinaryCorner(), kneed(t, 1500, 600, 2800, 1200)},
		"progressive": {stiffCorner(), kneed(t, 3000, 4000, 3500, 5000)},
	} {
		t.Run(name, func(t *testing.T) {
			road := Road{Spectrum: 64e-6, Speed: 20}
			want := must[unit.Damping](t)(c.corner.Equivalent(c.damper, road))
			response := must[Response](t)(c.corner.Response(want, road))
			speed, tyre := simulate(t, c.corner, c.damper, response.Intensity)
			tuningtest.Near(t, "travel speed", speed, float64(response.TravelSpeed), 0.02)
			tuningtest.Near(t, "tyre load", tyre, float64(response.Tyre), 0.02)
		})
	}
}
