package figures

import (
	"fmt"
	"math"
	"strings"

	"detent/tuning"
	"detent/tuning/ride"
	"detent/tuning/unit"
)

// noise is the part of a figure below which a change of it says nothing.
const noise = 0.0005

func (c change) settings() [2]tuning.Setting { return [2]tuning.Setting{c.before, c.after} }

// mean is the mean over the axles that move of a figure, before and after.
func (c change) mean(figure func(axle tuning.Axle, at Clicks) (float64, error)) (means [2]float64, err error) {
	if len(c.moved) == 0 {
		return means, tuning.Problemf(tuning.Invalid, "Nothing turns, so there is nothing to compare.")
	}
	for i, at := range c.settings() {
		for _, axle := range c.moved {
			v, err := figure(axle, ClicksOf(at, axle))
			if err != nil {
				return means, err
			}
			means[i] += v / float64(len(c.moved))
		}
	}
	return means, nil
}

// tell is a verdict on dampers alone; the sentence is marked as an estimate
// where one is.
func (c change) tell(w Word, say string) Verdict {
	for _, axle := range c.moved {
		if c.model.Estimate(OnDampers, axle) {
			return Verdict{Word: w, Rests: OnDampers, Say: "Estimate: " + say}
		}
	}
	return Verdict{Word: w, Rests: OnDampers, Say: strings.ToUpper(say[:1]) + say[1:]}
}

// Parts of a grip that a complaint is about.
func indexPart(g ride.Grip) unit.Ratio { return g.Index }
func roughPart(g ride.Grip) unit.Ratio { return g.Road * g.Kerb }
func kerbPart(g ride.Grip) unit.Ratio  { return g.Kerb }

// grip judges by what the remedy does to a part of the grip on a surface.
func (c change) grip(name string, surface tuning.Surface, part func(ride.Grip) unit.Ratio) (Verdict, error) {
	grip, err := c.mean(func(axle tuning.Axle, at Clicks) (float64, error) {
		damper, err := c.model.Damper(axle, at)
		if err != nil {
			return 0, err
		}
		g, err := c.model.corners[axle].Grip(damper, groundOf(surface))
		return float64(part(g)), cannot(err, "compare the grip")
	})
	if err != nil || grip[0] <= 0 {
		return Silent(err), nil
	}
	const moves = 1e-4
	w := word(grip[1]/grip[0]-1, moves)
	return c.tell(w, fmt.Sprintf("%s changes by %+.3f %%; %s.", name, 100*(grip[1]/grip[0]-1), w.ending())), nil
}

// Damping ratio: how much of a change counts, and from where a slow body lacks
// no damping any more. From memory.
const (
	ratioMoves = 0.01
	enough     = 0.8
)

// settling judges by the damping ratio of slow movement.
func (c change) settling() (Verdict, error) {
	ratio, err := c.mean(func(axle tuning.Axle, at Clicks) (float64, error) {
		r, err := c.model.Ratios(axle, at)
		return float64(r.Low.Mean), err
	})
	if err != nil {
		return Verdict{}, err
	}
	w := word(ratio[1]-ratio[0], ratioMoves)
	ending := w.ending()
	if w == Agrees && ratio[0] >= enough {
		w, ending = Neutral, "a body that settles slowly there does not lack damping"
	}
	return c.tell(w, fmt.Sprintf("the damping ratio goes from %.2f to %.2f; %s.", ratio[0], ratio[1], ending)), nil
}

// roughRoad is what an axle that sinks or runs out of travel is driven over: a
// class D road, at a speed one drives over such.
var roughRoad = ride.Road{Spectrum: 1024e-6, Speed: 20}

// sinking judges by how far the dampers pull the body down over a run of bumps:
// the mean force E[F(v)] at the travel speed the road gives, over the wheel
// rate.
func (c change) sinking() (Verdict, error) {
	sunk, err := c.mean(func(axle tuning.Axle, at Clicks) (float64, error) {
		corner := c.model.corners[axle]
		damper, response, err := c.onRoughRoad(axle, at)
		if err != nil {
			return 0, err
		}
		return 1000 * -meanForce(damper, float64(response.TravelSpeed)) / float64(corner.Wheel), nil
	})
	if err != nil {
		return Verdict{}, err
	}
	const moves = 0.05 // mm
	w := word(sunk[0]-sunk[1], moves)
	return c.tell(w, fmt.Sprintf("over a run of bumps the dampers pull the body down %.1f mm instead of %.1f mm; %s.", sunk[1], sunk[0], w.ending())), nil
}

// travel judges by the deviation of the wheel travel on a rough road.
func (c change) travel() (Verdict, error) {
	travel, err := c.mean(func(axle tuning.Axle, at Clicks) (float64, error) {
		_, response, err := c.onRoughRoad(axle, at)
		return 1000 * float64(response.Travel), err
	})
	if err != nil {
		return Verdict{}, err
	}
	w := word(1-travel[1]/travel[0], noise)
	return c.tell(w, fmt.Sprintf("on a rough road the wheel travels %.2f mm instead of %.2f mm (standard deviation); %s.", travel[1], travel[0], w.ending())), nil
}

func (c change) onRoughRoad(axle tuning.Axle, at Clicks) (ride.Damper, ride.Response, error) {
	damper, err := c.model.Damper(axle, at)
	if err != nil {
		return ride.Damper{}, ride.Response{}, err
	}
	corner := c.model.corners[axle]
	linear, err := corner.Equivalent(damper, roughRoad)
	if err != nil {
		return ride.Damper{}, ride.Response{}, cannot(err, "drive this car over a rough road")
	}
	response, err := corner.Response(linear, roughRoad)
	return damper, response, cannot(err, "drive this car over a rough road")
}

// meanForce is E[F(v)] for normal v of the given deviation, by the midpoint
// rule over eight deviations.
func meanForce(d ride.Damper, deviation float64) float64 {
	const points, reach = 800, 8.0
	var sum float64
	for i := range points {
		u := reach * (2*(float64(i)+0.5)/points - 1)
		density := math.Exp(-u*u/2) / math.Sqrt(2*math.Pi)
		sum += float64(d.Force(unit.Speed(u*deviation))) * density * 2 * reach / points
	}
	return sum
}
