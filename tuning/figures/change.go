package figures

import (
	"slices"

	"detent/tuning"
	"detent/tuning/ride"
	"detent/tuning/transfer"
)

// change is a car before and after a remedy, at today's clicks and at some on
// either side, since what holds at one position alone is not to be relied on.
type change struct {
	model Model
	asks  asked
	moved []tuning.Axle
	moves []tuning.Move
	steps []step // today's first

	driven map[runKey][2]transfer.Run // so far, before and after
}

// turns tells whether the remedy turns an axle.
func (c *change) turns(axle tuning.Axle) bool { return slices.Contains(c.moved, axle) }

// step is where the clicks stand before and after a remedy, at one place.
type step struct {
	before, after [tuning.Axles]ride.Damper
	from, to      [tuning.Axles]Clicks
}

// clicksEitherSide is how many clicks either side of today's a remedy is looked at.
const clicksEitherSide = 2

// change lays a remedy out for measuring. ok is false where the model has no
// measure for it.
func (m Model) change(c tuning.Complaint, at tuning.Setting, r tuning.Remedy) (_ *change, ok bool, err error) {
	if r.Kind != tuning.TurnClicks {
		return nil, false, nil
	}
	after, err := at.Apply(r.Moves)
	if err != nil {
		return nil, false, err
	}
	out := &change{model: m, moved: movedAxles(r.Moves), moves: r.Moves}
	if len(out.moved) == 0 {
		return nil, false, nil
	}
	if out.asks, ok = asks(c, m.car, out.moved, r.Moves[0].Turn() == tuning.Stiffer); !ok {
		return nil, false, nil
	}
	var seen []int
	for _, wanted := range []int{0, -clicksEitherSide, clicksEitherSide} {
		shift := m.shiftWithinStops(r.Moves, wanted)
		if slices.Contains(seen, shift) {
			continue
		}
		seen = append(seen, shift)
		s, err := m.step(shifted(at, r.Moves, shift), shifted(after, r.Moves, shift))
		if err != nil {
			return nil, true, err
		}
		out.steps = append(out.steps, s)
	}
	return out, true, nil
}

// movedAxles lists the axles that moves turn.
func movedAxles(moves []tuning.Move) []tuning.Axle {
	var moved []tuning.Axle
	for axle := range tuning.Axle(tuning.Axles) {
		if slices.ContainsFunc(moves, func(m tuning.Move) bool { return m.Corner.Axle() == axle && m.From != m.To }) {
			moved = append(moved, axle)
		}
	}
	return moved
}

// shiftWithinStops cuts a shift of all moves to what keeps both their ends
// between the stops.
func (m Model) shiftWithinStops(moves []tuning.Move, shift int) int {
	for _, move := range moves {
		n := m.car.Dampers[move.Corner.Axle()].Range[move.Adjuster]
		shift = min(max(shift, -min(move.From, move.To)), n-max(move.From, move.To))
	}
	return shift
}

// shifted is a setting with the adjusters of the moves turned on by some clicks.
func shifted(at tuning.Setting, moves []tuning.Move, shift int) tuning.Setting {
	for _, move := range moves {
		at[move.Corner][move.Adjuster] += shift
	}
	return at
}

func (m Model) step(from, to tuning.Setting) (s step, err error) {
	for axle := range tuning.Axle(tuning.Axles) {
		s.from[axle], s.to[axle] = ClicksOf(from, axle), ClicksOf(to, axle)
		if s.before[axle], err = m.Damper(axle, s.from[axle]); err != nil {
			return step{}, err
		}
		if s.after[axle], err = m.Damper(axle, s.to[axle]); err != nil {
			return step{}, err
		}
	}
	return s, nil
}

// ends are the dampers of a step before and after.
func (s step) ends() [2][tuning.Axles]ride.Damper {
	return [2][tuning.Axles]ride.Damper{s.before, s.after}
}
