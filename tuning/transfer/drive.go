package transfer

import (
	"cmp"
	"errors"
	"math"

	"detent/tuning/unit"
)

// Moment is the car at one time of a manoeuvre.
type Moment struct {
	At    unit.Seconds
	Loads [4]unit.Force // below zero where the model would lift the wheel
	Heave unit.Length
	Pitch unit.Angle
	Roll  unit.Angle
}

// Moved is the load an axle has moved from its left to its right wheel,
// (F_right − F_left)/2.
func (m Moment) Moved(axle int) unit.Force {
	return (m.Loads[2*axle+1] - m.Loads[2*axle]) / 2
}

// negligible is the part of the whole load below which a movement from side to
// side counts as none.
const negligible = 1e-9

// FrontShare is the part of the load moved from side to side that the front
// axle moves. There is none while no load is moved.
func (m Moment) FrontShare() (share unit.Share, moved bool) {
	front, rear := m.Moved(Front), m.Moved(Rear)
	whole := m.Loads[FL] + m.Loads[FR] + m.Loads[RL] + m.Loads[RR]
	if math.Abs(float64(front+rear)) <= negligible*math.Abs(float64(whole)) {
		return 0, false
	}
	return unit.Share(front / (front + rear)), true
}

// The longest step in s, how much of the quickest motion of a car a step may
// be, and how many steps are too many. Halving the step changes the loads of a
// car by less than 1e-3 N.
const (
	longStep = 1e-3
	accurate = 0.4
	patience = 1e6
)

// errStiff means a car that cannot be followed in steps of a useful size.
var errStiff = errors.New("this car is too stiff or too light to be followed in time")

// Drive follows the car through a manoeuvre from time zero and returns it at
// the times asked for, which must rise.
func (c Car) Drive(m Manoeuvre, at []unit.Seconds) ([]Moment, error) {
	if err := cmp.Or(c.Check(), m.check(at)); err != nil {
		return nil, err
	}
	return c.drive(m, at, longStep)
}

func (c Car) drive(m Manoeuvre, at []unit.Seconds, longest float64) ([]Moment, error) {
	chassis := newChassis(c)
	step := min(longest, accurate/chassis.quickest())
	if float64(at[len(at)-1])/step > patience {
		return nil, errStiff
	}
	var x state
	if m.Settled {
		ay, ax := m.Lateral.lineFrom(0), m.Longitudinal.lineFrom(0)
		x = c.settled(ay.at(0), ax.at(0))
	}
	static, trace := c.staticLoads(), make([]Moment, len(at))
	now := 0.0
	for i, t := range at {
		for now < float64(t) {
			ay, ax := m.Lateral.lineFrom(now), m.Longitudinal.lineFrom(now)
			until := min(float64(t), ay.until, ax.until)
			chassis.follow(&x, &ay, &ax, now, until, step)
			now = until
		}
		trace[i] = chassis.moment(t, &x, &static)
	}
	return trace, nil
}

// moment looks at a state.
func (c *chassis) moment(t unit.Seconds, x *state, static *[4]unit.Force) Moment {
	return Moment{
		At:    t,
		Loads: c.loads(x, static),
		Heave: unit.Length(x[heave]),
		Pitch: unit.Angle(x[pitch]),
		Roll:  unit.Angle(x[roll]),
	}
}

// loads are the tyre loads in a state, rest load less k_t·z_u.
func (c *chassis) loads(x *state, static *[4]unit.Force) [4]unit.Force {
	loads := *static
	for i := range loads {
		loads[i] -= unit.Force(c.axle[i/2].tyre * x[wheel+i])
	}
	return loads
}
