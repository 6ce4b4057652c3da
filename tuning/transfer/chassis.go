package transfer

import (
	"math"

	"detent/tuning/ride"
	"detent/tuning/unit"
)

// state holds the seven heights and angles, and from speed on their speeds.
type state [14]float64

// Where each figure of a state is.
const (
	heave = iota
	pitch
	roll
	wheel // the first of four
	speed = 7
)

// chassis is a car made ready for stepping: bare numbers, nothing to allocate.
type chassis struct {
	mass, rollInertia, pitchInertia float64
	rollArm, overturning            float64
	axle                            [2]running
}

// running is an axle made ready for stepping.
type running struct {
	x, y         float64 // of its left wheel from the centre of gravity
	mass         float64
	spring, tyre float64
	bar          float64 // force for each metre between left and right travel
	damper       ride.Damper
	link         float64 // force lifting the left wheel for each unit of a_y
	lift         float64 // force lifting each wheel for each unit of a_x
	squat        float64 // the same on the body above
}

func newChassis(c Car) *chassis {
	car := &chassis{
		mass:         float64(c.Sprung),
		rollInertia:  float64(c.RollInertia),
		pitchInertia: float64(c.PitchInertia),
		rollArm:      c.rollArm(),
		overturning:  c.overturning(),
	}
	for i, a := range c.axles() {
		end := float64(1 - 2*i) // +1 front, −1 rear
		each := end * c.pitchLoad() / 2
		car.axle[i] = running{
			x:      end * float64(a.Distance),
			y:      float64(a.Track) / 2,
			mass:   float64(a.Unsprung),
			spring: float64(a.Wheel),
			tyre:   float64(a.Tyre),
			bar:    float64(a.Bar) / float64(a.Track*a.Track),
			damper: a.Damper,
			link:   c.linkLoad(i),
			lift:   each * float64(a.Anti),
			squat:  each * (1 - float64(a.Anti)),
		}
	}
	return car
}

// quickest bounds the fastest rate in the car's free motion, 1/s.
func (c *chassis) quickest() float64 {
	var fastest float64
	for i := range c.axle {
		a := &c.axle[i]
		body := 4 * (1/c.mass + a.x*a.x/c.pitchInertia + a.y*a.y/c.rollInertia)
		steepest := float64(a.damper.Steepest())
		rate := math.Sqrt((a.spring+2*a.bar+a.tyre)/a.mass+(a.spring+2*a.bar)*body) + steepest*(1/a.mass+body)
		fastest = max(fastest, rate)
	}
	return fastest
}

// kinkParts is into how many steps one is cut in which a damper passes a kink.
const kinkParts = 16

// follow moves the car on from one time to another, during which both courses
// are straight, in even steps by the classical Runge-Kutta method. A step in
// which a damper passes a kink of its curve would lose the method's order: it
// is taken again in small parts.
func (c *chassis) follow(x *state, ay, ax *line, from, to, step float64) {
	n := math.Ceil((to-from)/step - 1e-9)
	h := (to - from) / n
	for i := range int(n) {
		t := from + float64(i)*h
		before, regimes := *x, c.regimes(x)
		c.step(x, ay, ax, t, h)
		if c.regimes(x) == regimes {
			continue
		}
		*x = before
		for part := range kinkParts {
			c.step(x, ay, ax, t+h*float64(part)/kinkParts, h/kinkParts)
		}
	}
}

// regimes tells on which piece of its curve each damper is.
func (c *chassis) regimes(x *state) (regimes [4]int) {
	for i := range c.axle {
		a := &c.axle[i]
		left, right := a.travel(x, speed, 2*i)
		regimes[2*i] = a.damper.Regime(unit.Speed(left))
		regimes[2*i+1] = a.damper.Regime(unit.Speed(right))
	}
	return regimes
}

// step moves the car on by h.
func (c *chassis) step(x *state, ay, ax *line, t, h float64) {
	var k1, k2, k3, k4, at state
	middle := t + h/2
	c.rate(&k1, x, ay.at(t), ax.at(t))
	at.move(x, &k1, h/2)
	c.rate(&k2, &at, ay.at(middle), ax.at(middle))
	at.move(x, &k2, h/2)
	c.rate(&k3, &at, ay.at(middle), ax.at(middle))
	at.move(x, &k3, h)
	c.rate(&k4, &at, ay.at(t+h), ax.at(t+h))
	for i := range x {
		x[i] += h / 6 * (k1[i] + 2*(k2[i]+k3[i]) + k4[i])
	}
}

// move sets a state to x moved on by h at the given rate.
func (s *state) move(x, rate *state, h float64) {
	for i := range s {
		s[i] = x[i] + h*rate[i]
	}
}

// travel is how far the left and right wheel of an axle are up in their
// arches, z_u − z_b, or with offset speed how fast they go up.
func (a *running) travel(x *state, offset, left int) (l, r float64) {
	body := x[offset+heave] - a.x*x[offset+pitch]
	lean := a.y * x[offset+roll]
	return x[offset+wheel+left] - body - lean, x[offset+wheel+left+1] - body + lean
}

// rate sets out to the time derivative of a state.
func (c *chassis) rate(out, x *state, ay, ax float64) {
	copy(out[:speed], x[speed:])
	var up, noseDown float64
	leftUp := c.rollArm*ay + c.overturning*x[roll]
	for i := range c.axle {
		a := &c.axle[i]
		l, r := a.travel(x, 0, 2*i)
		vl, vr := a.travel(x, speed, 2*i)
		twist := a.bar * (l - r)
		left := a.spring*l + float64(a.damper.Force(unit.Speed(vl))) + twist
		right := a.spring*r + float64(a.damper.Force(unit.Speed(vr))) - twist

		body := left + right + 2*a.squat*ax
		up += body
		noseDown -= a.x * body
		leftUp += a.y * (left - right)

		wl, wr := wheel+2*i, wheel+2*i+1
		out[speed+wl] = (a.lift*ax + a.link*ay - a.tyre*x[wl] - left) / a.mass
		out[speed+wr] = (a.lift*ax - a.link*ay - a.tyre*x[wr] - right) / a.mass
	}
	out[speed+heave] = up / c.mass
	out[speed+pitch] = noseDown / c.pitchInertia
	out[speed+roll] = leftUp / c.rollInertia
}
