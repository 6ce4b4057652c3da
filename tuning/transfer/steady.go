package transfer

import (
	"cmp"

	"detent/tuning/unit"
)

// Steady is the car held at constant accelerations.
type Steady struct {
	Loads [4]unit.Force
	Roll  unit.Angle
}

// Steady returns where the car settles under constant accelerations, in closed
// form. In roll, each axle's springs and bar, K_s, stand in series with its
// tyres, K_t = k_t·t²/2, and the load M/t that goes straight to the tyres winds
// up the tyres alone:
//
//	φ = a_y·(m_s·(h_s−h_ra) + Σ M·K_s/(K_s+K_t)) / (Σ K_s·K_t/(K_s+K_t) − m_s·g·(h_s−h_ra))
//	ψ = (K_s·φ + M·a_y)/(K_s+K_t), LT = K_t·ψ/t
//
// with the last term below the line only where Overturning is set.
func (c Car) Steady(ay, ax unit.Acceleration) (Steady, error) {
	if err := cmp.Or(c.Check(), checkAcceleration(ay), checkAcceleration(ax)); err != nil {
		return Steady{}, err
	}
	x, static := c.settled(float64(ay), float64(ax)), c.staticLoads()
	return Steady{Loads: newChassis(c).loads(&x, &static), Roll: unit.Angle(x[roll])}, nil
}

func checkAcceleration(a unit.Acceleration) error {
	return unit.Between("acceleration", a, -1000, 1000)
}

// settled is the state the car rests in under constant accelerations.
func (c Car) settled(ay, ax float64) state {
	x := c.rolled(ay)
	front, rear := c.sunk(Front, ax), c.sunk(Rear, ax)
	x[heave] = (front.body*float64(c.Rear.Distance) + rear.body*float64(c.Front.Distance)) / float64(c.Wheelbase())
	x[pitch] = (rear.body - front.body) / float64(c.Wheelbase())
	for i := range 4 {
		x[wheel+i] += [2]sinking{front, rear}[i/2].wheel
	}
	return x
}

// rolled is the state under a_y alone.
func (c Car) rolled(ay float64) (x state) {
	moment, rate := c.rollArm(), -c.overturning()
	for axle, a := range c.axles() {
		springs, tyres := a.springRoll(), a.tyreRoll()
		moment += c.linkLoad(axle) * float64(a.Track) * springs / (springs + tyres)
		rate += a.rollRate()
	}
	x[roll] = ay * moment / rate
	for axle, a := range c.axles() {
		springs, tyres := a.springRoll(), a.tyreRoll()
		tilt := (springs*x[roll] + c.linkLoad(axle)*float64(a.Track)*ay) / (springs + tyres)
		x[wheel+2*axle] = tilt * float64(a.Track) / 2
		x[wheel+2*axle+1] = -x[wheel+2*axle]
	}
	return x
}

// sinking is how far an axle's wheels and the body above them rise.
type sinking struct{ wheel, body float64 }

// sunk is an axle under a_x alone: the whole moved load is on its tyres, and
// all of it but the links' share on its springs.
func (c Car) sunk(axle int, ax float64) sinking {
	a := c.axles()[axle]
	each := c.pitchLoad() * ax / 2 // off each front wheel, onto each rear one
	if axle == Rear {
		each = -each
	}
	wheel := each / float64(a.Tyre)
	return sinking{wheel: wheel, body: wheel + each*(1-float64(a.Anti))/float64(a.Wheel)}
}
