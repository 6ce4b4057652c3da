package ride

import (
	"math/rand/v2"
	"testing"

	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

// The closed forms against a solution of the Lyapunov equation
// A·Σ + Σ·Aᵀ + S·B·Bᵀ = 0 as sixteen linear equations (I⊗A + A⊗I)·vec Σ = −S·vec BBᵀ.
func TestResponseAgainstLyapunov(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	between := func(low, high float64) float64 { return low + (high-low)*random.Float64() }
	for range 50 {
		c := Corner{
			Sprung: unit.Mass(between(60, 500)), Unsprung: unit.Mass(between(12, 60)),
			Wheel: unit.Stiffness(between(1e4, 2e5)), Tyre: unit.Stiffness(between(1.2e5, 4e5)),
		}
		damping := unit.Damping(between(0.1, 1.5)) * c.critical()
		road := Road{Spectrum: 64e-6, Speed: unit.Speed(between(5, 70))}
		got := must[Response](t)(c.Response(damping, road))
		want := lyapunov(t, c, damping, got.Intensity)
		tuningtest.Near(t, "acceleration", float64(got.Acceleration), float64(want.Acceleration), 1e-9)
		tuningtest.Near(t, "travel", float64(got.Travel), float64(want.Travel), 1e-9)
		tuningtest.Near(t, "travel speed", float64(got.TravelSpeed), float64(want.TravelSpeed), 1e-9)
		tuningtest.Near(t, "tyre", float64(got.Tyre), float64(want.Tyre), 1e-9)
	}
}

// At the optimum either way is worse.
func TestOptimum(t *testing.T) {
	road := Road{Spectrum: 64e-6, Speed: 20}
	for _, c := range []Corner{ordinaryCorner(), stiffCorner()} {
		best := must[Optimum](t)(c.Optimum())
		tyre := func(damping unit.Damping) unit.Force { return must[Response](t)(c.Response(damping, road)).Tyre }
		body := func(damping unit.Damping) unit.Acceleration {
			return must[Response](t)(c.Response(damping, road)).Acceleration
		}
		for _, factor := range []unit.Damping{0.99, 1.01} {
			if tyre(best.Tyre*factor) <= tyre(best.Tyre) {
				t.Errorf("%g times the best damping loads the tyre less unevenly", float64(factor))
			}
			if body(best.Acceleration*factor) <= body(best.Acceleration) {
				t.Errorf("%g times the best damping shakes the body less", float64(factor))
			}
		}
	}
}

// The waves of ISO 8608 alone give less than all waves, and nearly all of it.
func TestBandTyre(t *testing.T) {
	road := Road{Spectrum: 64e-6, Speed: 30}
	c := ordinaryCorner()
	all := must[Response](t)(c.Response(1500, road)).Tyre
	band := must[unit.Force](t)(c.BandTyre(1500, road))
	if band >= all || band < all*0.95 {
		t.Errorf("in the band %g N, of all waves %g N", float64(band), float64(all))
	}
}
