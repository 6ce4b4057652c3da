package figures

import (
	"math"

	"detent/tuning"
	"detent/tuning/ride"
	"detent/tuning/transfer"
)

// Missing is a figure of the car that is not known.
type Missing struct {
	Name   string  // "front spring"
	Option string  // of /car edit
	Moves  float64 // how far off the answers may be without it, as a part
}

// Sharpest is the missing figure whose ordinary spread moves the answers most:
// the damping ratios of both axles, and what the front dampers do to the front
// share at turn-in. The dampers are held as they are at the setting, so that a
// spring that turns out stiffer lowers the damping ratio, as it would on the
// car. ok is false when nothing is missing or nothing can be compared.
func (m Model) Sharpest(at tuning.Setting) (missing Missing, ok bool) {
	var dampers [tuning.Axles]ride.Damper
	for axle := range tuning.Axle(tuning.Axles) {
		wheel, err := m.Damper(axle, ClicksOf(at, axle))
		if err != nil {
			return Missing{}, false
		}
		if dampers[axle], err = wheel.AtWheel(1 / m.car.Ends[axle].MotionRatio); err != nil { // back to the shaft
			return Missing{}, false
		}
	}
	today, err := m.answers(dampers)
	if err != nil {
		return Missing{}, false
	}
	for _, f := range m.assumed {
		other, err := m.varied(f)
		if err != nil {
			continue
		}
		then, err := other.answers(dampers)
		if err != nil {
			continue
		}
		var moves float64
		for i, v := range today {
			moves = max(moves, math.Abs(then[i]/v-1))
		}
		if moves > missing.Moves {
			missing = Missing{Name: f.fullName(), Option: f.option, Moves: moves}
		}
	}
	return missing, missing.Moves > 0
}

func (f figure) fullName() string {
	if f.end == "" {
		return f.name
	}
	return f.end + " " + f.name
}

// varied is the car with one assumed figure raised by its spread.
func (m Model) varied(f figure) (Model, error) {
	car := m.car
	v, _ := f.value(&car)
	f.set(&car, v*(1+f.spread))
	return Of(car)
}

// answers are the figures that Sharpest compares, on dampers given at the shaft.
func (m Model) answers(shaft [tuning.Axles]ride.Damper) (answers [3]float64, err error) {
	var wheel [tuning.Axles]ride.Damper
	for axle := range tuning.Axle(tuning.Axles) {
		motion := m.car.Ends[axle].MotionRatio
		if wheel[axle], err = shaft[axle].AtWheel(motion); err != nil {
			return answers, err
		}
		ratios, err := m.corners[axle].Ratios(wheel[axle], m.splitAtWheel(axle))
		if err != nil {
			return answers, err
		}
		answers[axle] = float64(ratios.Low.Mean)
	}
	before, err := m.wholeCarOn(wheel).Run(transfer.Probes(transfer.Entry)[0], m.grip(), m.driven())
	if err != nil {
		return answers, err
	}
	if wheel[tuning.Front], err = wheel[tuning.Front].Scaled(1.2, 1.2); err != nil {
		return answers, err
	}
	after, err := m.wholeCarOn(wheel).Run(transfer.Probes(transfer.Entry)[0], m.grip(), m.driven())
	answers[2] = float64(after.FrontShare - before.FrontShare)
	return answers, err
}
