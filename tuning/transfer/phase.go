package transfer

import (
	"math"

	"detent/tuning/unit"
)

// Phase is the part of a corner a change is tried in.
type Phase int

const (
	Entry   Phase = iota // turning in
	Exit                 // back on the throttle
	Braking              // on the brakes on the straight
)

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

// Probe is one way in which a phase may go. Drivers and corners differ, so what
// comes out differently from probe to probe is not to be relied on.
type Probe struct {
	Phase Phase
	// Rise is how long the cornering takes to build up at entry, the throttle at
	// exit, the brakes under braking.
	Rise unit.Seconds
	// Together: at entry the brakes come off while the cornering builds up, and
	// not before; at exit the line opens while the throttle comes.
	Together bool
}

// rises are quick, ordinary and slow hands and feet, s. Assumed; no published
// source.
var rises = [...]unit.Seconds{0.15, 0.3, 0.9}

// Probes are the ways in which a phase is tried. The first is the ordinary one.
func Probes(p Phase) []Probe {
	probes := []Probe{{p, rises[1], p == Exit}}
	for _, rise := range rises {
		for _, together := range []bool{false, true} {
			probe := Probe{p, rise, together}
			if probe != probes[0] && !(p == Braking && together) {
				probes = append(probes, probe)
			}
		}
	}
	return probes
}

// The figures of the manoeuvres, accelerations in g. Assumed; no published
// source.
const (
	cornering = 0.9 // on a tyre of grip 1
	opened    = 2.0 / 3.0
	opening   = 1.0  // s until the cornering is down to that part
	throttle  = 0.35 // where the driven wheels can hold it
	brakes    = -0.9
	watch     = 0.8 // s, or as long as the rise takes
	onset     = 0.3 // s, over which roll and pitch are looked at
)

// watched is how long a probe lasts.
func (p Probe) watched() float64 { return max(watch, float64(p.Rise)) }

// manoeuvre is what the car does in a probe.
func (c Car) manoeuvre(p Probe, grip Grip, driven Driven) Manoeuvre {
	still := Course{{0, 0}}
	peak := inG(cornering * float64(grip))
	switch p.Phase {
	case Entry:
		m := Manoeuvre{Lateral: Course{{0, 0}, {p.Rise, peak}}, Longitudinal: still}
		if p.Together {
			m.Longitudinal, m.Settled = Course{{0, inG(brakes)}, {p.Rise, 0}}, true
		}
		return m
	case Exit:
		m := Manoeuvre{
			Lateral:      Course{{0, peak}},
			Longitudinal: Course{{0, 0}, {p.Rise, c.thrust(grip, driven)}},
			Settled:      true,
		}
		if p.Together {
			m.Lateral = append(m.Lateral, Point{opening, peak * opened})
		}
		return m
	default:
		return Manoeuvre{Lateral: still, Longitudinal: Course{{0, 0}, {p.Rise, inG(brakes)}}}
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
