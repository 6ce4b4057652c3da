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
	relaxation     float64
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

// The longest steps of the trials, how much of the quickest motion of the
// corner a step may be, and the shortest that is still worth while. With the
// classical fourth-order method they keep the error of a grip below 1e-6 on cars
// as they are (see TestTrialStep); a kerb needs the finer step.
const (
	bodyStep  = 2e-3 // s
	kerbStep  = 0.5e-3
	flatStep  = 1e-3 // behind a kerb
	accurate  = 0.4
	shortStep = 1e-5 // s
)

func newTrial(c Corner, d Damper) (*trial, error) {
	ms, mu, kw, kt := c.numbers()
	step := accurate / c.quickest(d.Steepest())
	if step < shortStep {
		return nil, errors.New("this corner is too stiff or too light to be followed in time")
	}
	return &trial{
		ms: ms, mu: mu, kw: kw, kt: kt, weight: c.weight(), relaxation: float64(c.Relaxation),
		damper: d, longest: step,
	}, nil
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

// push is what disturbs the corner at a time.
type push func(t float64) shove

// shove is a load on the body, downward, the height of the road, and how fast
// that rises.
type shove struct{ load, road, rise float64 }

// body is the mean side force while a load comes onto the body and off it, the
// loaded and the unloaded side averaged.
func (c *trial) body() mean { return c.bodySide(+1).plus(c.bodySide(-1)).times(0.5) }

// bodySide is the mean side force while a load comes onto the body (side +1) or
// off it (side −1).
func (c *trial) bodySide(side float64) mean {
	full := side * bodyLoad * c.weight
	ramp := func(t float64) shove { return shove{load: full * t / bodyRamp} }
	hold := func(float64) shove { return shove{load: full} }
	m, during := c.follow(c.rest(), ramp, 0, bodyRamp, bodyStep)
	_, after := c.follow(m, hold, bodyRamp, bodyWatch, bodyStep)
	return during.plus(after).times(1 / bodyWatch)
}

// kerb is the mean side force over a (1−cos) bump of the given height.
func (c *trial) kerb(height float64) mean {
	past := kerbLong / float64(windowSpeed)
	turns := 2 * math.Pi / past
	bump := func(t float64) shove {
		sin, cos := math.Sincos(turns * t)
		return shove{road: height / 2 * (1 - cos), rise: height / 2 * turns * sin}
	}
	flat := func(float64) shove { return shove{} }
	m, during := c.follow(c.rest(), bump, 0, past, kerbStep)
	_, after := c.follow(m, flat, past, kerbWatch, flatStep)
	return during.plus(after).times(1 / kerbWatch)
}

// rolling is a corner on its way: how it moves, and how far its tyre's contact
// patch has been carried sideways, over the relaxation length.
type rolling struct {
	motion
	patch float64
}

// rest is a corner that rolls along undisturbed.
func (c *trial) rest() rolling { return rolling{patch: 1} }

// kinkParts is into how many steps one is cut in which the damper passes a kink
// of its curve, or the tyre leaves or meets the road: taken whole it would lose
// the method's order.
const kinkParts = 16

// follow moves the corner on from one time to another in even steps no longer
// than the one given, and adds up the side force over the time.
func (c *trial) follow(m rolling, push push, from, to, step float64) (end rolling, sum mean) {
	n := math.Ceil((to-from)/min(step, c.longest) - 1e-9)
	h := (to - from) / n
	for i := range int(n) {
		t := from + float64(i)*h
		next, force := c.roll(m, push, t, h)
		if c.regime(m.motion, push(t)) != c.regime(next.motion, push(t+h)) {
			next, force = m, mean{}
			for part := range kinkParts {
				var more mean
				next, more = c.roll(next, push, t+h*float64(part)/kinkParts, h/kinkParts)
				force = force.plus(more)
			}
		}
		m, sum = next, sum.plus(force)
	}
	return m, sum
}

// regime is the piece of its curve the damper is on, and whether the tyre is on
// the road.
type regime struct {
	piece  int
	ground bool
}

func (c *trial) regime(m motion, s shove) regime {
	load, _ := c.load(m, s)
	return regime{c.damper.Regime(unit.Speed(m.wheelSpeed - m.bodySpeed)), load > 0}
}

// roll is one step of the corner and of its tyre's contact patch, and the side
// force over its time. The patch feels the motion and does not act on it.
func (c *trial) roll(m rolling, push push, t, h float64) (next rolling, sum mean) {
	next.motion = c.step(m.motion, push, t, h)
	load, loading := c.load(m.motion, push(t))
	last, unloading := c.load(next.motion, push(t+h))
	air := 0.0
	if last <= 0 {
		air = h
	}
	// The load at a third of the step, by the cubic through both ends.
	third := max(0, (20*load+4*h*loading+7*last-2*h*unloading)/27)
	last = max(0, last)
	early, late := third, last
	if c.relaxation > 0 {
		early, late = c.carry(m.patch, third, last, h)
	}
	next.patch = late
	plain := h / 4 * (3*early + late)
	return next, mean{plain, h / 4 * (3*early*(1-third) + late*(1-last)), air}
}

// carry moves the contact patch on by one step and returns where it is at a third
// of it and at its end, over the relaxation length. Its equation
// ẇ = v·(1 − w/(σ·x)) turns infinitely quick as the load ratio x goes to nothing:
// hence the implicit method of Radau (IIA, third order), which takes w along to
// nothing there. The tyre's side force is Y(x)·w/(σ·x).
func (c *trial) carry(patch, third, last, h float64) (early, late float64) {
	const airborne = 1e-9
	way := h * float64(windowSpeed) / c.relaxation
	p, q := way/max(third, airborne), way/max(last, airborne)
	d := 1 + 5*p/12 + q/4 + p*q/6
	early = ((patch+way/3)*(1+q/4) + q/12*(patch+way)) / d
	late = ((patch+way)*(1+5*p/12) - 3*p/4*(patch+way/3)) / d
	return early, late
}

// load is the tyre's load over its load at rest, below zero by as much as the
// tyre is off the ground, and how fast it rises.
func (c *trial) load(m motion, s shove) (ratio, rate float64) {
	stiff := c.kt / c.weight
	return 1 + stiff*(s.road-m.wheel), stiff * (s.rise - m.wheelSpeed)
}

// step is one step of the classical Runge-Kutta method.
func (c *trial) step(m motion, push push, t, h float64) motion {
	start, middle, end := push(t), push(t+h/2), push(t+h)
	k1 := c.rate(m, start)
	k2 := c.rate(m.after(h/2, k1), middle)
	k3 := c.rate(m.after(h/2, k2), middle)
	k4 := c.rate(m.after(h, k3), end)
	return m.after(h/6, k1).after(h/3, k2).after(h/3, k3).after(h/6, k4)
}

// rate is the time derivative of the motion.
func (c *trial) rate(m motion, s shove) motion {
	strut := c.kw*(m.wheel-m.body) + float64(c.damper.Force(unit.Speed(m.wheelSpeed-m.bodySpeed)))
	tyre := max(0, c.weight+c.kt*(s.road-m.wheel))
	return motion{
		body:       m.bodySpeed,
		bodySpeed:  (strut - s.load) / c.ms,
		wheel:      m.wheelSpeed,
		wheelSpeed: (tyre - c.weight - strut) / c.mu,
	}
}
