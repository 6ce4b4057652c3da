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
// high-speed one the slope beyond. It returns a Refusal when the dampers are not
// known or a click is past a stop.
func (m Model) Damper(axle tuning.Axle, at Clicks) (ride.Damper, error) {
	fitted := m.car.Dampers[axle]
	if !fitted.Fitted() {
		return ride.Damper{}, tuning.Unfitted{Axle: axle}
	}
	for _, a := range fitted.Adjusters() {
		if at[a] < 0 || at[a] > fitted.Range[a] {
			return ride.Damper{}, tuning.PastStop{Adjuster: a, Typed: at[a], Most: fitted.Range[a], Count: tuning.FromSoft}
		}
	}
	damper, err := m.slowJoinedToFast(axle, at)
	return damper, cannotAt(axle, err, MakeDamper)
}

// direction is bump or rebound.
type direction int

const (
	inBump direction = iota
	inRebound
)

// adjustersTurning names the adjusters that turn one direction of a damper in slow and in
// fast movement. ok is false for the bump of a one-way that moves rebound only.
func adjustersTurning(d tuning.Damper, side direction) (low, high tuning.Adjuster, ok bool) {
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

// slowJoinedToFast joins the force that the slow adjuster's click gives up to the split
// with its growth beyond at the fast one's click, bump and rebound apart.
func (m Model) slowJoinedToFast(axle tuning.Axle, at Clicks) (ride.Damper, error) {
	speeds, split := m.kinks(axle), m.splitAtWheel(axle)
	var forces [2][]unit.Force
	for _, side := range []direction{inBump, inRebound} {
		low, high, turns := adjustersTurning(m.car.Dampers[axle], side)
		slow, err := m.asOneAdjuster(axle, low, at[low], turns)
		if err != nil {
			return ride.Damper{}, err
		}
		fast, err := m.asOneAdjuster(axle, high, at[high], turns)
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
	return damperThrough(speeds, forces[inBump], forces[inRebound])
}

// kinks are the rising wheel speeds between which the axle's dampers are
// straight. One always lies beyond the split, to give the slope there.
func (m Model) kinks(axle tuning.Axle) []unit.Speed {
	split := m.splitAtWheel(axle)
	speeds := []unit.Speed{split, 2 * split}
	if m.tables[axle] != nil {
		for _, v := range withoutRest(m.car.Curves[axle].Speeds) {
			speeds = append(speeds, v/unit.Speed(m.car.Ends[axle].MotionRatio))
		}
	}
	slices.Sort(speeds)
	return slices.Compact(speeds)
}

// asOneAdjuster is the axle's damper, at the wheel, as if one adjuster turned all
// of it: from the force table, whose nearest click holds beyond its own, or else
// the nominal damper. What no click turns stands in the middle of the nominal
// damper.
func (m Model) asOneAdjuster(axle tuning.Axle, a tuning.Adjuster, click int, turns bool) (ride.Damper, error) {
	motion := m.car.Ends[axle].MotionRatio
	if table := m.tables[axle]; table != nil {
		softest, hardest := table.Range()
		d, err := table.Damper(min(max(click, softest), hardest))
		if err != nil {
			return ride.Damper{}, err
		}
		return d.AtWheel(motion)
	}
	if !turns {
		return m.corners[axle].Nominal(motion, 1, 2)
	}
	return m.corners[axle].Nominal(motion, click, m.car.Dampers[axle].Range[a])
}

// forceOf is the size of a damper's force in one direction.
func forceOf(d ride.Damper, side direction, v unit.Speed) unit.Force {
	if side == inBump {
		return d.Force(v)
	}
	return -d.Force(-v)
}

// damperThrough is the damper with given forces: a table of two equal positions.
func damperThrough(speeds []unit.Speed, bump, rebound []unit.Force) (ride.Damper, error) {
	table, err := ride.NewTable([]int{0, 1}, speeds, [][]unit.Force{bump, bump}, [][]unit.Force{rebound, rebound})
	if err != nil {
		return ride.Damper{}, err
	}
	return table.Damper(0)
}

// tableOf hands a force table to the model. It leaves out rest, where no damper
// has force. The model takes no force that falls as the speed rises, so one that
// scatters below that of a slower speed counts as equal to it.
func tableOf(t *tuning.ForceTable) (ride.Table, error) {
	speeds := withoutRest(t.Speeds)
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

// withoutRest leaves out the speed of rest; speeds rise.
func withoutRest(speeds []unit.Speed) []unit.Speed {
	if len(speeds) > 0 && speeds[0] == 0 {
		return speeds[1:]
	}
	return speeds
}
