package transfer

import (
	"fmt"
	"math"

	"detent/tuning/unit"
)

// Phase is the part of a corner a change is tried in.
type Phase int

const (
	Entry   Phase = iota // turning in
	Exit                 // back on the throttle while the steering opens
	Braking              // on the brakes on the straight
)

// String is the word the phase goes by.
func (p Phase) String() string {
	if p < Entry || p > Braking {
		return fmt.Sprintf("Phase(%d)", int(p))
	}
	return [...]string{"entry", "exit", "braking"}[p]
}

// Driven tells which axle the engine turns.
type Driven int

const (
	RearDriven Driven = iota
	FrontDriven
	AllDriven
)

// Grip is how hard a tyre lets the car corner, relative to a good one.
type Grip unit.Ratio

// The grips of the kinds of tyre. Assumed; no published source.
const (
	RoadTyre  Grip = 0.9
	SemiSlick Grip = 1.05
	Slick     Grip = 1.25
)

// The figures of the three manoeuvres, accelerations in g. Assumed; no published
// source.
const (
	cornering   = 0.9  // on a tyre of grip 1
	turnIn      = 0.35 // s
	opened      = 2.0 / 3.0
	opening     = 1.0  // s until the cornering is down to that part
	throttle    = 0.35 // where the driven wheels can hold it
	throttleOn  = 0.3  // s
	brakes      = -0.9
	brakesOn    = 0.15 // s
	watch       = 0.8  // s
	early       = 0.15 // s
	samplesEach = 500  // in a second
)

// manoeuvre is what the car does in a phase.
func (c Car) manoeuvre(p Phase, grip Grip, driven Driven) Manoeuvre {
	still := Course{{0, 0}}
	peak := inG(cornering * float64(grip))
	switch p {
	case Entry:
		return Manoeuvre{Lateral: Course{{0, 0}, {turnIn, peak}}, Longitudinal: still}
	case Exit:
		return Manoeuvre{
			Lateral:      Course{{0, peak}, {opening, peak * opened}},
			Longitudinal: Course{{0, 0}, {throttleOn, c.thrust(grip, driven)}},
			Settled:      true,
		}
	default:
		return Manoeuvre{Lateral: still, Longitudinal: Course{{0, 0}, {brakesOn, inG(brakes)}}}
	}
}

func inG(g float64) unit.Acceleration { return unit.Acceleration(g) * unit.Gravity }

// thrust is the acceleration the driver asks for out of a corner, or less where
// the driven wheels cannot hold it. Cornering at two thirds of the limit leaves
// them √(1 − (2/3)²) of their grip (the friction circle, from memory), on the
// load they have once the acceleration itself has moved its part.
func (c Car) thrust(grip Grip, driven Driven) unit.Acceleration {
	left := cornering * float64(grip) * math.Sqrt(1-opened*opened)
	moved := left * c.pitchLoad() / float64(c.Mass()) // left·h/L
	loads := c.staticLoads()
	share := func(axle int) float64 {
		return float64(loads[2*axle]+loads[2*axle+1]) / (float64(c.Mass()) * gravity)
	}
	hold := left
	switch driven {
	case FrontDriven:
		hold = left * share(Front) / (1 + moved)
	case RearDriven:
		hold = left * share(Rear) / max(1-moved, 0.01)
	}
	return inG(min(throttle, hold))
}
