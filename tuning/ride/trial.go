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

// moment is z_s, ż_s, z_u, ż_u from rest, and the side force summed up so far.
type moment [5]float64

// push is what disturbs the corner at a time: a load on the body, downward, and
// the height of the road.
type push func(t float64) (load, road float64)

// bodyGrip is the mean side force while a load comes onto the body (side +1) or
// off it (side −1).
func (c *trial) bodyGrip(side float64) float64 {
	full := side * bodyLoad * c.weight
	ramp := func(t float64) (float64, float64) { return full * t / bodyRamp, 0 }
	hold := func(float64) (float64, float64) { return full, 0 }
	m := c.follow(moment{}, ramp, 0, bodyRamp, bodyStep)
	m = c.follow(m, hold, bodyRamp, bodyWatch, bodyStep)
	return m[4] / bodyWatch
}

// kerbGrip is the mean side force over a (1−cos) bump of the given height.
func (c *trial) kerbGrip(height float64) float64 {
	past := kerbLong / float64(windowSpeed)
	bump := func(t float64) (float64, float64) { return 0, height / 2 * (1 - math.Cos(2*math.Pi*t/past)) }
	flat := func(float64) (float64, float64) { return 0, 0 }
	m := c.follow(moment{}, bump, 0, past, kerbStep)
	m = c.follow(m, flat, past, kerbWatch, kerbStep)
	return m[4] / kerbWatch
}

// kinkParts is into how many steps one is cut in which the damper passes a kink
// of its curve or the tyre leaves or meets the road: taken whole it would lose
// the method's order.
const kinkParts = 16

// follow moves the corner on from one time to another in even steps no longer
// than the one given.
func (c *trial) follow(m moment, push push, from, to, step float64) moment {
	n := math.Ceil((to-from)/min(step, c.longest) - 1e-9)
	h := (to - from) / n
	for i := range int(n) {
		t := from + float64(i)*h
		next := c.step(&m, push, t, h)
		if c.regime(&m, push, t) == c.regime(&next, push, t+h) {
			m = next
			continue
		}
		for part := range kinkParts {
			m = c.step(&m, push, t+h*float64(part)/kinkParts, h/kinkParts)
		}
	}
	return m
}

// regime tells on which piece of its curve the damper is, and whether the tyre
// is on the road.
func (c *trial) regime(m *moment, push push, t float64) (regime struct {
	piece  int
	ground bool
}) {
	_, road := push(t)
	regime.piece = c.damper.Regime(unit.Speed(m[3] - m[1]))
	regime.ground = c.weight+c.kt*(road-m[2]) > 0
	return regime
}

// step is one step of the classical Runge-Kutta method.
func (c *trial) step(m *moment, push push, t, h float64) moment {
	k1 := c.rate(m, push, t)
	k2 := c.rate(m.moved(&k1, h/2), push, t+h/2)
	k3 := c.rate(m.moved(&k2, h/2), push, t+h/2)
	k4 := c.rate(m.moved(&k3, h), push, t+h)
	next := *m
	for j := range next {
		next[j] += h / 6 * (k1[j] + 2*(k2[j]+k3[j]) + k4[j])
	}
	return next
}

// moved is the moment after going on at a rate for h.
func (m *moment) moved(rate *moment, h float64) *moment {
	next := *m
	for j := range next {
		next[j] += h * rate[j]
	}
	return &next
}

// rate is the time derivative of a moment.
func (c *trial) rate(m *moment, push push, t float64) moment {
	load, road := push(t)
	strut := c.kw*(m[2]-m[0]) + float64(c.damper.Force(unit.Speed(m[3]-m[1])))
	tyre := max(0, c.weight+c.kt*(road-m[2]))
	return moment{
		m[1],
		(strut - load) / c.ms,
		m[3],
		(tyre - c.weight - strut) / c.mu,
		sideForce(tyre / c.weight),
	}
}
