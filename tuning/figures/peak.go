package figures

import (
	"detent/tuning"
	"detent/tuning/ride"
	"detent/tuning/unit"
)

// Peak is where an axle grips best on a bumpy road as all its adjusters turn
// together from soft to hard, in clicks from soft of the one that a remedy turns.
type Peak struct {
	Inside   bool // there is a peak inside the range; otherwise Best is the stop at which grip still rises
	Axle     tuning.Axle
	Adjuster tuning.Adjuster
	At, Best int
}

// peak finds the peak of the axle that the remedy turns, and of the driven axle
// where it turns both.
func (c *change) peak() (Peak, error) {
	axle := c.moved[0]
	if len(c.moved) > 1 {
		axle = driven(c.model.car)
	}
	p := Peak{Axle: axle}
	for _, move := range c.moves {
		if move.Corner.Axle() == axle {
			p.Adjuster = move.Adjuster
		}
	}
	from := c.steps[0].from[axle]
	p.At = from[p.Adjuster]
	last := c.model.car.Dampers[axle].Range[p.Adjuster]
	var best unit.Ratio
	for click := 0; click <= last; click++ {
		damper, err := c.model.Damper(axle, c.model.along(axle, from, p.Adjuster, click))
		if err != nil {
			return Peak{}, err
		}
		unrest, err := c.model.corners[axle].OnRoad(damper, roadOf(ride.Bumpy))
		if err != nil {
			return Peak{}, cannot(err, CompareGrip)
		}
		if grip := unrest.Grip(ride.Ordinary); click == 0 || grip > best {
			p.Best, best = click, grip
		}
	}
	p.Inside = p.Best > 0 && p.Best < last
	return p, nil
}
