package figures

import (
	"testing"

	"detent/tuning"
)

// Softer bump at the rear lets it squat on the way out, and stiffer rebound at the
// front holds the nose down. A one-way that turns both together does not: softer
// rebound lets the body ride higher over bumps.
func TestMechanismOfExit(t *testing.T) {
	for _, car := range nineCars() {
		if car.Dampers[tuning.Rear].Ways == 1 {
			continue
		}
		m, at := modelOf(t, car), start(t, car)
		advice := advise(t, car, at, tuning.Oversteer, tuning.Exit)
		for _, r := range advice.Remedies {
			j, _ := judge(t, m, advice.Complaint, at, r)
			kind := Squat
			if r.Moves[0].Corner.Axle() == tuning.Front {
				kind = NoseRise
			}
			if j.Does.Mechanism != kind || !j.Does.AsSaid() {
				t.Errorf("%s: %+v", car.Name, j.Does)
			}
		}
	}
}
