package figures

import (
	"math"

	"detent/tuning"
	"detent/tuning/ride"
	"detent/tuning/transfer"
	"detent/tuning/unit"
)

// MechanismKind is what a remedy does by itself, apart from any balance.
type MechanismKind int

const (
	NoMechanism MechanismKind = iota
	Squat                     // how far the rear is down on the way out over a class B road, m
	NoseRise                  // how far the nose is up there, m
	Dive                      // how far the nose is down in the first 0.3 s of braking, rad
	TurnIn                    // the front's share of the load transfer while turning in
	Settling                  // until a swing of the body has died down to 2 %, s
	Sinking                   // how far the dampers pull the body down over a run of bumps, m
	LoadSwing                 // deviation of the tyre load on a class B road over the load at rest
	Lift                      // how long the tyre is off the road over a 40 mm kerb, s
	Travel                    // deviation of the wheel travel on a rough road, m
	Lean                      // how far the body leans in the first 0.3 s of turning in, rad
)

// Effect is a mechanism before and after a remedy.
type Effect struct {
	Mechanism     MechanismKind
	Axle          tuning.Axle // at which it is measured
	Both          bool        // at both, as their mean
	Before, After float64
	Wanted        float64 // +1 where the trade says that it grows, −1 where it shrinks
}

// Grows tells whether the mechanism grew.
func (e Effect) Grows() bool { return e.After > e.Before }

// Part is the change as a part of what was there before. ok is false where that
// was next to nothing.
func (e Effect) Part() (part float64, ok bool) {
	if e.Before == e.After {
		return 0, true
	}
	part = (e.After - e.Before) / math.Abs(e.Before)
	return part, finite(100 * part)
}

// Hardly tells whether it changed by less than 5 % of what was there before.
// Something that appears from nothing has changed by more.
func (e Effect) Hardly() bool {
	part, ok := e.Part()
	return ok && math.Abs(part) < mechanismFloor/100
}

// AsSaid tells whether it went the way the trade says.
func (e Effect) AsSaid() bool { return (e.After-e.Before)*e.Wanted > 0 }

// effect measures a mechanism at today's clicks.
func (c *change) effect(kind MechanismKind) (Effect, error) { return c.effectAt(kind, 0) }

// effectAt measures a mechanism at one step. A swing that never dies down has no
// figure, and the answer is Unanswered.
func (c *change) effectAt(kind MechanismKind, at int) (Effect, error) {
	e := Effect{Mechanism: kind, Axle: c.moved[0], Both: len(c.moved) > 1, Wanted: c.asks.wanted}
	var both [2]float64
	var err error
	switch kind {
	case Squat, NoseRise, Dive, TurnIn, Lean:
		both, err = c.inManoeuvre(kind, at)
	default:
		both, err = c.ofCorners(kind, at)
	}
	if err != nil {
		return Effect{}, err
	}
	if !finite(both[0]) || !finite(both[1]) {
		return Effect{}, Unanswered{Task: CompareMechanism, Axle: e.Axle, Err: errNoFigure}
	}
	e.Before, e.After = both[0], both[1]
	return e, nil
}

// mechanisms are the changes of a mechanism in all probes, in per cent of what
// was there before, above 0 the wanted way. Per cent of nothing mean nothing, so
// where one of them begins at nothing the answer is Unanswered.
func (c *change) mechanisms() ([]float64, error) {
	var points []float64
	for at := range c.steps {
		e, err := c.effectAt(c.asks.mechanism, at)
		if err != nil {
			return nil, err
		}
		part, ok := e.Part()
		if !ok {
			return nil, Unanswered{Task: CompareMechanism, Axle: e.Axle, Err: errNothingBefore}
		}
		points = append(points, 100*part*e.Wanted)
	}
	return points, nil
}

// inManoeuvre measures a mechanism of the whole car in the ordinary probe of its
// phase. On the way out the road counts too: dampers with more rebound than bump
// pull the body down over bumps.
func (c *change) inManoeuvre(kind MechanismKind, at int) (both [2]float64, err error) {
	phase := map[MechanismKind]transfer.Phase{Dive: transfer.Braking, TurnIn: transfer.Entry, Lean: transfer.Entry}
	p, known := phase[kind]
	if !known {
		p = transfer.Exit
	}
	before, after, err := c.driveProbe(transfer.Probes(p)[0], at)
	if err != nil {
		return both, err
	}
	for i, run := range []transfer.Run{before, after} {
		dampers := c.steps[at].ends()[i]
		switch kind {
		case Squat:
			both[i], err = c.model.pulledDown(tuning.Rear, dampers[tuning.Rear], roadOf(ride.Bumpy))
			both[i] += float64(run.Squat)
		case NoseRise:
			both[i], err = c.model.pulledDown(tuning.Front, dampers[tuning.Front], roadOf(ride.Bumpy))
			both[i] = float64(run.Nose) - both[i]
		case Dive:
			both[i] = float64(run.Pitch)
		case TurnIn:
			both[i] = float64(run.FrontShare)
		case Lean:
			both[i] = float64(run.Roll)
		}
		if err != nil {
			return both, err
		}
	}
	return both, nil
}

// ofCorners measures a mechanism of single corners, as the mean of the axles that
// move.
func (c *change) ofCorners(kind MechanismKind, at int) (both [2]float64, err error) {
	for i, dampers := range c.steps[at].ends() {
		for _, axle := range c.moved {
			v, err := c.model.ofCorner(kind, axle, dampers[axle])
			if err != nil {
				return both, err
			}
			both[i] += v / float64(len(c.moved))
		}
	}
	return both, nil
}

// runOfBumps is the road for an axle that sinks or runs out of travel: class D,
// at a speed that people drive on such a road. From memory.
var runOfBumps = ride.Road{Spectrum: 1024e-6, Speed: 20}

func (m Model) ofCorner(kind MechanismKind, axle tuning.Axle, d ride.Damper) (float64, error) {
	corner := m.corners[axle]
	switch kind {
	case Settling:
		return m.settling(axle, d)
	case Sinking:
		return m.pulledDown(axle, d, runOfBumps)
	case LoadSwing:
		unrest, err := corner.OnRoad(d, roadOf(ride.Bumpy))
		return math.Sqrt(unrest.Load), cannot(err, DriveBumps)
	case Lift:
		kerb, err := corner.OverKerb(d, ride.Rough)
		return float64(kerb.Air), cannot(err, DriveKerb)
	}
	linear, err := corner.Equivalent(d, runOfBumps)
	if err != nil {
		return 0, cannot(err, DriveRough)
	}
	response, err := corner.Response(linear, runOfBumps)
	return float64(response.Travel), cannot(err, DriveRough)
}

// settling is how long the slowest swing of the corner takes to die down to 2 %,
// ln 50/(ζ·ω), with the mean of the damper's slow slopes.
func (m Model) settling(axle tuning.Axle, d ride.Damper) (float64, error) {
	corner := m.corners[axle]
	ratios, err := corner.Ratios(d, m.splitAtWheel(axle))
	if err != nil {
		return 0, cannot(err, AnswerForCar)
	}
	critical, err := corner.Critical()
	if err != nil {
		return 0, cannot(err, AnswerForCar)
	}
	modes, err := corner.Modes(critical * unit.Damping(ratios.Low.Mean))
	if err != nil {
		return 0, cannot(err, AnswerForCar)
	}
	var longest float64
	for _, mode := range modes {
		rate := 2 * math.Pi * float64(mode.Frequency) * float64(mode.Ratio)
		longest = max(longest, math.Log(50)/rate)
	}
	return longest, nil
}

// pulledDown is how far a damper pulls the body down on a road: the mean force
// E[F(v)] at the travel speed the road gives, over the wheel rate.
func (m Model) pulledDown(axle tuning.Axle, d ride.Damper, road ride.Road) (float64, error) {
	corner := m.corners[axle]
	linear, err := corner.Equivalent(d, road)
	if err != nil {
		return 0, cannot(err, DriveRough)
	}
	response, err := corner.Response(linear, road)
	if err != nil {
		return 0, cannot(err, DriveRough)
	}
	return -float64(d.MeanForce(response.TravelSpeed)) / float64(corner.Wheel), nil
}
