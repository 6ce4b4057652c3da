package ride

import (
	"errors"
	"math"

	"detent/tuning/unit"
)

// trial is a corner with a non-linear damper and a tyre that may leave the road,
// ready to be stepped in time.
type trial struct {
	ms, mu, kw, kt float64
	weight         float64
	damper         Damper
	longest        float64 // step it can be followed in, s
}

// The figures of the two trials in time.
const (
	bodyLoad  = 0.6 // of the rest load
	bodyRamp  = 0.2 // s
	bodyWatch = 1.2 // s
	kerbLong  = 1.0 // m
	kerbWatch = 0.4 // s
)

// The longest steps of the two trials, how much of the quickest motion of the
// corner a step may be, and the shortest that is still worth while. With the
// classical fourth-order method they keep the error of a grip below 1e-6 on cars
// as they are; a kerb needs the finer step.
const (
	bodyStep  = 2e-3 // s
	kerbStep  = 0.5e-3
	accurate  = 0.4
	shortStep = 1e-5 // s
)

func newTrial(c Corner, d Damper) (*trial, error) {
	ms, mu, kw, kt := c.numbers()
	step := accurate / c.quickest(d.Steepest())
	if step < shortStep {
		return nil, errors.New("this corner is too stiff or too light to be followed in time")
	}
	return &trial{ms: ms, mu: mu, kw: kw, kt: kt, weight: c.weight(), damper: d, longest: step}, nil
}

// motion is where body and wheel are, from rest, and how fast they rise. Four
// figures are as many as the compiler keeps in registers.
type motion struct{ body, bodySpeed, wheel, wheelSpeed float64 }

// after is the motion when it goes on at a rate for h.
func (m motion) after(h float64, rate motion) motion {
	return motion{
		m.body + h*rate.body,
		m.bodySpeed + h*rate.bodySpeed,
		m.wheel + h*rate.wheel,
		m.wheelSpeed + h*rate.wheelSpeed,
	}
}

// push is what disturbs the corner at a time: a load on the body, downward, and
// the height of the road.
type push func(t float64) (load, road float64)

// bodyGrip is the mean side force while a load comes onto the body (side +1) or
// off it (side −1).
func (c *trial) bodyGrip(side float64) float64 {
	full := side * bodyLoad * c.weight
	ramp := func(t float64) (float64, float64) { return full * t / bodyRamp, 0 }
	hold := func(float64) (float64, float64) { return full, 0 }
	m, during := c.follow(motion{}, ramp, 0, bodyRamp, bodyStep)
	_, after := c.follow(m, hold, bodyRamp, bodyWatch, bodyStep)
	return (during + after) / bodyWatch
}

// kerbGrip is the mean side force over a (1−cos) bump of the given height.
func (c *trial) kerbGrip(height float64) float64 {
	past := kerbLong / float64(windowSpeed)
	bump := func(t float64) (float64, float64) { return 0, height / 2 * (1 - math.Cos(2*math.Pi*t/past)) }
	flat := func(float64) (float64, float64) { return 0, 0 }
	m, during := c.follow(motion{}, bump, 0, past, kerbStep)
	_, after := c.follow(m, flat, past, kerbWatch, kerbStep)
	return (during + after) / kerbWatch
}

// kinkParts is into how many steps one is cut in which the damper passes a kink
// of its curve or the tyre leaves or meets the road: taken whole it would lose
// the method's order.
const kinkParts = 16

// follow moves the corner on from one time to another in even steps no longer
// than the one given, and adds up the side force over the time.
func (c *trial) follow(m motion, push push, from, to, step float64) (end motion, sum float64) {
	n := math.Ceil((to-from)/min(step, c.longest) - 1e-9)
	h := (to - from) / n
	for i := range int(n) {
		t := from + float64(i)*h
		next, force := c.step(m, push, t, h)
		if c.regime(m, push, t) != c.regime(next, push, t+h) {
			next, force = m, 0
			for part := range kinkParts {
				var more float64
				next, more = c.step(next, push, t+h*float64(part)/kinkParts, h/kinkParts)
				force += more
			}
		}
		m, sum = next, sum+force
	}
	return m, sum
}

// regime tells on which piece of its curve the damper is, and whether the tyre
// is on the road.
func (c *trial) regime(m motion, push push, t float64) (regime struct {
	piece  int
	ground bool
}) {
	_, road := push(t)
	regime.piece = c.damper.Regime(unit.Speed(m.wheelSpeed - m.bodySpeed))
	regime.ground = c.weight+c.kt*(road-m.wheel) > 0
	return regime
}

// step is one step of the classical Runge-Kutta method, and the side force over
// its time.
func (c *trial) step(m motion, push push, t, h float64) (next motion, sum float64) {
	k1, y1 := c.rate(m, push, t)
	k2, y2 := c.rate(m.after(h/2, k1), push, t+h/2)
	k3, y3 := c.rate(m.after(h/2, k2), push, t+h/2)
	k4, y4 := c.rate(m.after(h, k3), push, t+h)
	next = m.after(h/6, k1).after(h/3, k2).after(h/3, k3).after(h/6, k4)
	return next, h / 6 * (y1 + 2*(y2+y3) + y4)
}

// rate is the time derivative of the motion, and the side force at the time.
func (c *trial) rate(m motion, push push, t float64) (rate motion, force float64) {
	load, road := push(t)
	strut := c.kw*(m.wheel-m.body) + float64(c.damper.Force(unit.Speed(m.wheelSpeed-m.bodySpeed)))
	tyre := max(0, c.weight+c.kt*(road-m.wheel))
	return motion{
		body:       m.bodySpeed,
		bodySpeed:  (strut - load) / c.ms,
		wheel:      m.wheelSpeed,
		wheelSpeed: (tyre - c.weight - strut) / c.mu,
	}, sideForce(tyre / c.weight)
}
