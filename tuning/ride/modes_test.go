package ride

import (
	"math"
	"testing"

	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

// A heavily damped corner: the wheel has two real roots, and a ratio taken for
// one mass says nothing about them.
func TestModesOfStiffDamper(t *testing.T) {
	modes := must[[]Mode](t)(stiffCorner().Modes(5800))
	if len(modes) != 3 || modes[1].Ratio != 1 || modes[2].Ratio != 1 || modes[0].Ratio >= 1 {
		t.Errorf("modes %v, want one pair and two real roots", modes)
	}
}

// The product of the eigenvalues is the determinant of the system.
func TestModesProduct(t *testing.T) {
	for _, c := range []Corner{ordinaryCorner(), stiffCorner()} {
		for _, damping := range []unit.Damping{100, 1000, 5000, 20000} {
			product := 1.0
			for _, m := range must[[]Mode](t)(c.Modes(damping)) {
				omega := 2 * math.Pi * float64(m.Frequency)
				product *= omega
				if m.Ratio < 1 {
					product *= omega
				}
			}
			ms, mu, kw, kt := c.numbers()
			tuningtest.Near(t, "product of the eigenvalues", product, kw*kt/(ms*mu), 1e-9)
		}
	}
}
