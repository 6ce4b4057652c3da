package ride

import (
	"math"
	"testing"

	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

// A quick tyre and a light wheel leave one mass on its spring, for which the
// answer to a force step is known in closed form.
func TestStepOfOneMass(t *testing.T) {
	c := Corner{Sprung: 250, Unsprung: 1, Wheel: 20000, Tyre: 2e8}
	damping := unit.Damping(1500)
	step := must[Step](t)(c.ForceStep(damping))
	omega := math.Sqrt(20000.0 / 250)
	zeta := 1500 / (2 * math.Sqrt(20000*250))
	damped := omega * math.Sqrt(1-zeta*zeta)
	tuningtest.Near(t, "overshoot", float64(step.Overshoot), math.Exp(-math.Pi*zeta*omega/damped), 1e-3)
	tuningtest.Near(t, "time of the peak", float64(step.Peak), math.Pi/damped, 1e-3)
	// After it has settled the swing stays below 2 %, and not much before.
	envelope := math.Exp(-zeta*omega*float64(step.Settled)) * omega / damped
	if envelope < 0.02 || envelope > 0.08 {
		t.Errorf("settled at %v s, where the swing is still %g", step.Settled, envelope)
	}
}

func TestStepThatNeverSettles(t *testing.T) {
	if step, err := ordinaryCorner().RoadStep(1e-6); err == nil {
		t.Errorf("a step without damping settles: %+v", step)
	}
}
