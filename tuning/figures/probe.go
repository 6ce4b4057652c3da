package figures

import (
	"math"

	"detent/tuning"
	"detent/tuning/ride"
	"detent/tuning/transfer"
	"detent/tuning/unit"
)

// roadSpeed is the speed at which an axle's grip on the road is compared. From
// memory: that of a middling corner.
const roadSpeed = unit.Speed(24)

// The roads of the probes, the ordinary one first: those for a balance, and those
// for grip itself, which are rougher.
var (
	balanceRoads = [...]ride.Surface{ride.Bumpy, ride.Smooth}
	gripRoads    = [...]ride.Surface{ride.Bumpy, ride.Rough}
)

func roadOf(s ride.Surface) ride.Road { return ride.Road{Spectrum: s.Spectrum(), Speed: roadSpeed} }

// gripGain is 100·Δln of an axle's grip on a road, one for each sensitivity. It
// is 0 on an axle that the remedy does not turn.
func (c *change) gripGain(s step, axle tuning.Axle, road ride.Road) (gain [len(sensitivities)]float64, err error) {
	if !c.turns(axle) {
		return gain, nil
	}
	var ends [2]ride.Unrest
	for i, dampers := range s.ends() {
		if ends[i], err = c.model.corners[axle].OnRoad(dampers[axle], road); err != nil {
			return gain, cannot(err, CompareGrip)
		}
	}
	for i, sensitivity := range sensitivities {
		gain[i] = gained(ends[0].Grip(sensitivity), ends[1].Grip(sensitivity))
	}
	return gain, nil
}

// gained is 100·Δln of a grip. On absurd figures a grip can fall to nothing.
func gained(before, after unit.Ratio) float64 {
	const least = 1e-6
	return 100 * math.Log(float64(max(after, least)/max(before, least)))
}

// balanceProbe is the road's part of one probe of a balance, in points, above 0
// the wanted way.
type balanceProbe struct {
	step        int
	sensitivity int
	road        float64
}

// roadBalances are the road's parts of all probes, today's clicks on the ordinary
// road first.
func (c *change) roadBalances() ([]balanceProbe, error) {
	var probes []balanceProbe
	for i, s := range c.steps {
		for _, surface := range balanceRoads {
			front, err := c.gripGain(s, tuning.Front, roadOf(surface))
			if err != nil {
				return nil, err
			}
			rear, err := c.gripGain(s, tuning.Rear, roadOf(surface))
			if err != nil {
				return nil, err
			}
			for j := range sensitivities {
				probes = append(probes, balanceProbe{i, j, c.wantedSign() * (front[j] - rear[j])})
			}
		}
	}
	return probes, nil
}

// wantedSign is +1 where the front is to gain, −1 where the rear is.
func (c *change) wantedSign() float64 {
	if c.asks.gains == tuning.Front {
		return +1
	}
	return -1
}

// balances are the points of all probes of a balance,
// ΔB = 100·Δln(C_f/C_r) + 100·(Δln R_f − Δln R_r), with C the axles' capacity on a
// flat road and R their grip on a rough one, above 0 the wanted way; the ordinary
// probe first.
func (c *change) balances() ([]float64, error) {
	roads, err := c.roadBalances()
	if err != nil {
		return nil, err
	}
	var points []float64
	for p := range c.waysToDrive() {
		for _, road := range roads {
			flat, err := c.flatBalance(p, road.step)
			if err != nil {
				return nil, err
			}
			points = append(points, road.road+flat[road.sensitivity])
		}
	}
	return points, nil
}

// waysToDrive is how many ways there are to drive through the phase.
func (c *change) waysToDrive() int {
	phase, driven := runs[c.asks.phase]
	if !driven {
		return 1
	}
	return len(transfer.Probes(phase))
}

// flatBalance is the flat road's part of a balance when one way is driven at one
// step, one figure for each sensitivity. In the middle of a corner on a flat road
// dampers do nothing.
func (c *change) flatBalance(way, at int) (points [len(sensitivities)]float64, err error) {
	phase, driven := runs[c.asks.phase]
	if !driven {
		return points, nil
	}
	before, after, err := c.driveProbe(transfer.Probes(phase)[way], at)
	if err != nil {
		return points, err
	}
	for i, s := range sensitivities {
		points[i] = c.wantedSign() * 100 * transfer.Balance(before, after, s)
	}
	return points, nil
}

// driveProbe drives a probe before and after the remedy at one step; each is driven once.
func (c *change) driveProbe(p transfer.Probe, at int) (before, after transfer.Run, err error) {
	key := runKey{p, at}
	if both, done := c.driven[key]; done {
		return both[0], both[1], nil
	}
	var both [2]transfer.Run
	for i, dampers := range c.steps[at].ends() {
		if both[i], err = c.model.wholeCarOn(dampers).Run(p, c.model.grip(), c.model.driven()); err != nil {
			return before, after, cannot(err, Drive)
		}
	}
	if c.driven == nil {
		c.driven = map[runKey][2]transfer.Run{}
	}
	c.driven[key] = both
	return both[0], both[1], nil
}

// runKey names a run that has been driven.
type runKey struct {
	probe transfer.Probe
	step  int
}

// balanceWord is the word that all balances give. It is neutral as soon as one
// probe is, so the probe with the smallest road part is driven first.
func (c *change) balanceWord() (Word, error) {
	roads, err := c.roadBalances()
	if err != nil {
		return Unknown, err
	}
	weakest := 0
	for i, r := range roads {
		if math.Abs(r.road) < math.Abs(roads[weakest].road) {
			weakest = i
		}
	}
	roads[0], roads[weakest] = roads[weakest], roads[0]
	first := 0.0
	for p := range c.waysToDrive() {
		for _, road := range roads {
			flat, err := c.flatBalance(p, road.step)
			if err != nil {
				return Unknown, err
			}
			points := road.road + flat[road.sensitivity]
			if first == 0 {
				first = points
			}
			if math.Abs(points) < floor || points*first < 0 {
				return Neutral, nil
			}
		}
	}
	if first > 0 {
		return Agrees, nil
	}
	return Disagrees, nil
}

// grips are the points of all probes of grip itself, 100·Δln of the grip on the
// road or over a kerb: of the driven axle where its wheels spin, otherwise the
// mean of both.
func (c *change) grips() ([]float64, error) {
	axles := []tuning.Axle{tuning.Front, tuning.Rear}
	if c.asks.one {
		axles = []tuning.Axle{c.asks.gains}
	}
	gain := func(s step, axle tuning.Axle, surface ride.Surface) ([len(sensitivities)]float64, error) {
		if c.asks.counts == KerbGrip {
			return c.kerbGain(s, axle, surface)
		}
		return c.gripGain(s, axle, roadOf(surface))
	}
	var points []float64
	for _, s := range c.steps {
		for _, surface := range gripRoads {
			var sum [len(sensitivities)]float64
			for _, axle := range axles {
				gains, err := gain(s, axle, surface)
				if err != nil {
					return nil, err
				}
				for i, g := range gains {
					sum[i] += g / float64(len(axles))
				}
			}
			points = append(points, sum[:]...)
		}
	}
	return points, nil
}

// kerbGain is gripGain over the kerb of a surface.
func (c *change) kerbGain(s step, axle tuning.Axle, surface ride.Surface) (gain [len(sensitivities)]float64, err error) {
	if !c.turns(axle) {
		return gain, nil
	}
	var ends [2]ride.OverKerb
	for i, dampers := range s.ends() {
		if ends[i], err = c.model.corners[axle].OverKerb(dampers[axle], surface); err != nil {
			return gain, cannot(err, DriveKerb)
		}
	}
	for i, sensitivity := range sensitivities {
		gain[i] = gained(ends[0].Grip(sensitivity), ends[1].Grip(sensitivity))
	}
	return gain, nil
}
