package ride

import (
	"math"
	"testing"

	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

func TestSideForce(t *testing.T) {
	for _, c := range []struct{ x, want unit.Ratio }{{-1, 0}, {0, 0}, {1, 1}, {1.6, 1.504}, {0.4, 0.424}} {
		if got := Ordinary.SideForce(c.x); math.Abs(float64(got-c.want)) > 1e-15 {
			t.Errorf("Y(%g) = %g, want %g", float64(c.x), float64(got), float64(c.want))
		}
	}
}

// The published coefficient sets behind the ordinary sensitivity.
func TestOrdinarySensitivity(t *testing.T) {
	// μ_y = 1.011 − 0.0221·F_z[kN], reprinted widely. At a load F the side force
	// F·μ has, by load ratio, the slope s = 0.0221·F/μ(F) of Y.
	for load, want := range map[float64]float64{3: 0.070, 4: 0.096, 5: 0.123} {
		s := 0.0221 * load / (1.011 - 0.0221*load)
		tuningtest.Near(t, "sensitivity", s, want, 0.01)
		if s < 0.5*float64(Ordinary) || s > 1.5*float64(Ordinary) { // between half and one and a half times what is taken
			t.Errorf("at %g kN the sensitivity is %g, far from the ordinary %g", load, s, float64(Ordinary))
		}
	}
}
