package figures

import (
	"detent/tuning"
	"detent/tuning/ride"
	"detent/tuning/unit"
)

// Ratios are the axle's damping ratios with its adjusters at the given clicks.
func (m Model) Ratios(axle tuning.Axle, at Clicks) (ride.Ratios, error) {
	damper, err := m.Damper(axle, at)
	if err != nil {
		return ride.Ratios{}, err
	}
	r, err := m.corners[axle].Ratios(damper, m.splitAtWheel(axle))
	return r, cannot(err, AnswerForCar)
}

// Line is the damping ratio of bump or rebound in slow or fast movement, at each
// click of the adjuster that turns it.
type Line struct {
	Adjuster tuning.Adjuster
	Bump     bool // otherwise rebound
	Fast     bool // otherwise slow
	First    int  // the click of the first ratio
	Ratios   []unit.Ratio
}

// Name says which line it is: "bump, low speed".
func (l Line) Name() string {
	name, speed := "rebound", "low"
	if l.Bump {
		name = "bump"
	}
	if l.Fast {
		speed = "high"
	}
	return name + ", " + speed + " speed"
}

// Lines are the damping ratios of an axle click by click: bump and rebound, each
// in slow and fast movement, where clicks turn them, and only as far as a force
// table goes.
func (m Model) Lines(axle tuning.Axle) ([]Line, error) {
	fitted := m.car.Dampers[axle]
	var lines []Line
	for _, side := range []direction{inBump, inRebound} {
		low, high, ok := adjustersTurning(fitted, side)
		if !ok && m.tables[axle] == nil {
			continue
		}
		for _, fast := range []bool{false, true} {
			adjuster := low
			if fast {
				adjuster = high
			}
			line := Line{Adjuster: adjuster, Bump: side == inBump, Fast: fast}
			if err := m.fillLine(axle, &line); err != nil {
				return nil, err
			}
			lines = append(lines, line)
		}
	}
	return lines, nil
}

// fillLine works out the ratios of a line.
func (m Model) fillLine(axle tuning.Axle, line *Line) error {
	last := m.car.Dampers[axle].Range[line.Adjuster]
	if table := m.tables[axle]; table != nil {
		softest, hardest := table.Range()
		line.First, last = softest, min(last, hardest)
	}
	var at Clicks
	for click := line.First; click <= last; click++ {
		at[line.Adjuster] = click
		r, err := m.Ratios(axle, at)
		if err != nil {
			return err
		}
		sides, side := r.Low, inRebound
		if line.Fast {
			sides = r.High
		}
		if line.Bump {
			side = inBump
		}
		line.Ratios = append(line.Ratios, ratioOf(sides, side))
	}
	return nil
}

// Clicks is how many clicks make a change of 0.05 of damping ratio. ok is false
// when the adjuster changes nothing here.
func (l Line) Clicks() (n float64, ok bool) {
	if len(l.Ratios) < 2 {
		return 0, false
	}
	n, err := ride.ClicksFor(l.Ratios[0], l.Ratios[len(l.Ratios)-1], len(l.Ratios)-1)
	return n, err == nil
}

// A click that changes less than the first is hardly felt; one that changes more
// than the second is coarse.
// Common practice, no published source.
const (
	feltWorth   = unit.Ratio(0.02)
	coarseWorth = unit.Ratio(0.15)
)

// Stretch is a run of clicks that change unusually little or much.
type Stretch struct {
	From, To int // clicks from full soft
	Coarse   bool
	Worth    unit.Ratio // of the click that is farthest out
}

// Odd lists the runs of clicks that each change less than 0.02 of damping ratio,
// or more than 0.15.
func (l Line) Odd() []Stretch {
	var odd []Stretch
	for i := 1; i < len(l.Ratios); i++ {
		worth, click := l.Ratios[i]-l.Ratios[i-1], l.First+i
		const rounding = 1e-9
		coarse := worth > coarseWorth+rounding
		if !coarse && worth >= feltWorth-rounding {
			continue
		}
		if n := len(odd); n > 0 && odd[n-1].To == click-1 && odd[n-1].Coarse == coarse {
			last := &odd[n-1]
			last.To = click
			if coarse == (worth > last.Worth) {
				last.Worth = worth
			}
			continue
		}
		odd = append(odd, Stretch{click - 1, click, coarse, worth})
	}
	return odd
}

// ratioOf is one direction's ratio.
func ratioOf(s ride.Sides, side direction) unit.Ratio {
	if side == inBump {
		return s.Bump
	}
	return s.Rebound
}
