package figures

import (
	"slices"

	"detent/tuning"
	"detent/tuning/ride"
	"detent/tuning/unit"
)

// split is the shaft speed that divides slow movement from fast.
const split = ride.NominalKnee

// splitAtWheel is the split as the wheel moves.
func (m Model) splitAtWheel(axle tuning.Axle) unit.Speed {
	return split / unit.Speed(m.car.Ends[axle].MotionRatio)
}

// Damper is the axle's damper, at the wheel, with its adjusters at the given
// clicks. Bump adjusters drive the bump side and rebound adjusters the rebound
// side; a low-speed adjuster drives its side up to the split speed, a
// high-speed one the slope beyond. It returns a Problem when the dampers are not
// known or a click is past a stop.
func (m Model) Damper(axle tuning.Axle, at Clicks) (ride.Damper, error) {
	fitted := m.car.Dampers[axle]
	if !fitted.Fitted() {
		return ride.Damper{}, tuning.Problemf(tuning.Invalid, "I do not know the %s dampers yet: use /damper fit axle:%s.", axle, axle)
	}
	for _, a := range fitted.Adjusters() {
		if at[a] < 0 || at[a] > fitted.Range[a] {
			return ride.Damper{}, tuning.Problemf(tuning.Invalid, "Click %d lies past the stops of the %s %s, 0 to %d.", at[a], axle, a.Label(), fitted.Range[a])
		}
	}
	build := m.nominal
	if m.tables[axle] != nil {
		build = m.measured
	}
	damper, err := build(axle, at)
	return damper, cannot(err, "make the "+axle.String()+" damper")
}

// direction is bump or rebound.
type direction int

const (
	inBump direction = iota
	inRebound
)

func (d direction) String() string { return [...]string{"bump", "rebound"}[d] }

// turned names the adjusters that turn one direction of a damper in slow and in
// fast movement. ok is false for the bump of a one-way that moves rebound only.
func turned(d tuning.Damper, side direction) (low, high tuning.Adjuster, ok bool) {
	both, slow, fast := tuning.Bump, tuning.LowBump, tuning.HighBump
	if side == inRebound {
		both, slow, fast = tuning.Rebound, tuning.LowRebound, tuning.HighRebound
	}
	switch {
	case d.Has(slow):
		return slow, fast, true
	case d.Has(both):
		return both, both, true
	}
	return tuning.Rebound, tuning.Rebound, d.Moves == tuning.MovesBoth
}

// nominal is the damper assumed where nobody has measured one. A bump side that
// no click turns stands where the middle of the nominal damper does.
func (m Model) nominal(axle tuning.Axle, at Clicks) (ride.Damper, error) {
	fitted, corner, motion := m.car.Dampers[axle], m.corners[axle], m.car.Ends[axle].MotionRatio
	critical, err := corner.Critical()
	if err != nil {
		return ride.Damper{}, err
	}
	ratios := func(a tuning.Adjuster, turns bool) (ride.Ratios, error) {
		click, clicks := at[a], fitted.Range[a]
		if !turns {
			click, clicks = 1, 2
		}
		d, err := corner.Nominal(motion, click, clicks)
		if err != nil {
			return ride.Ratios{}, err
		}
		return corner.Ratios(d, m.splitAtWheel(axle))
	}
	var knees [2]ride.Knee
	for _, side := range []direction{inBump, inRebound} {
		low, high, ok := turned(fitted, side)
		slow, err := ratios(low, ok)
		if err != nil {
			return ride.Damper{}, err
		}
		fast, err := ratios(high, ok)
		if err != nil {
			return ride.Damper{}, err
		}
		knees[side] = ride.Knee{
			Low:  critical * unit.Damping(of(slow.Low, side)),
			High: critical * unit.Damping(of(fast.High, side)),
			At:   m.splitAtWheel(axle),
		}
	}
	return ride.Kneed(knees[inBump], knees[inRebound])
}

// of is one direction's ratio.
func of(s ride.Sides, side direction) unit.Ratio {
	if side == inBump {
		return s.Bump
	}
	return s.Rebound
}

// tableOf hands a force table to the model. Rest is left out, where every
// damper is without force, and a force that scatters below that of a slower
// speed counts as that one: a damper only takes energy.
func tableOf(t *tuning.ForceTable) (ride.Table, error) {
	speeds := moving(t.Speeds)
	rising := func(rows [][]unit.Force) [][]unit.Force {
		out := make([][]unit.Force, len(rows))
		for i, row := range rows {
			least := leastForce
			for _, force := range row[len(row)-len(speeds):] {
				least = max(least, force)
				out[i] = append(out[i], least)
			}
		}
		return out
	}
	return ride.NewTable(t.Clicks, speeds, rising(t.Bump), rising(t.Rebound))
}

// leastForce stands for no force at all in a table, N.
const leastForce = unit.Force(1e-6)

// moving leaves out the speed of rest; speeds rise.
func moving(speeds []unit.Speed) []unit.Speed {
	if len(speeds) > 0 && speeds[0] == 0 {
		return speeds[1:]
	}
	return speeds
}

// measured is the damper of the axle's force table. Beyond the measured clicks
// the nearest one holds. Where slow and fast movement have adjusters of their
// own, the force beyond the split grows from the slow adjuster's as it does at
// the fast one's click.
func (m Model) measured(axle tuning.Axle, at Clicks) (ride.Damper, error) {
	table, motion := m.tables[axle], m.car.Ends[axle].MotionRatio
	row := func(a tuning.Adjuster) (ride.Damper, error) {
		softest, hardest := table.Range()
		return table.Damper(min(max(at[a], softest), hardest))
	}
	speeds := slices.Clone(moving(m.car.Curves[axle].Speeds))
	speeds = append(speeds, split)
	slices.Sort(speeds)
	speeds = slices.Compact(speeds)

	var forces [2][]unit.Force
	for _, side := range []direction{inBump, inRebound} {
		low, high, _ := turned(m.car.Dampers[axle], side)
		slow, err := row(low)
		if err != nil {
			return ride.Damper{}, err
		}
		fast, err := row(high)
		if err != nil {
			return ride.Damper{}, err
		}
		for _, v := range speeds {
			force := forceOf(slow, side, min(v, split))
			if v > split {
				force += forceOf(fast, side, v) - forceOf(fast, side, split)
			}
			forces[side] = append(forces[side], force)
		}
	}
	return through(speeds, forces[inBump], forces[inRebound], motion)
}

// forceOf is the size of a damper's force in one direction.
func forceOf(d ride.Damper, side direction, v unit.Speed) unit.Force {
	if side == inBump {
		return d.Force(v)
	}
	return -d.Force(-v)
}

// through is the damper, at the wheel, through given forces: a table both of
// whose positions are alike.
func through(speeds []unit.Speed, bump, rebound []unit.Force, motion unit.Ratio) (ride.Damper, error) {
	table, err := ride.NewTable([]int{0, 1}, speeds, [][]unit.Force{bump, bump}, [][]unit.Force{rebound, rebound})
	if err != nil {
		return ride.Damper{}, err
	}
	damper, err := table.Damper(0)
	if err != nil {
		return ride.Damper{}, err
	}
	return damper.AtWheel(motion)
}
