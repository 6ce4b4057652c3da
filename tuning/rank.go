package tuning

import "slices"

// fromRecord puts the row's remedies in the order that the record prefers.
func (j *judge) fromRecord() {
	if j.history.Prefer == nil || len(j.advice.Remedies) == 0 {
		return
	}
	order := j.history.Prefer(slices.Clone(j.advice.Remedies))
	remedies := make([]Remedy, 0, len(order))
	for _, i := range order {
		remedies = append(remedies, j.advice.Remedies[i])
	}
	if !slices.IsSorted(order) {
		j.advice.Facts = append(j.advice.Facts, Fact{Kind: OrderOfRecord})
	}
	j.advice.Remedies = remedies
}

// settleOrder settles the order: a remedy short of clicks goes behind the next, a
// stiffening one on an adjuster that stands high goes behind a softening one, one
// that just failed goes behind all. Where everything that the row could turn
// stands high, the start comes first. What memory put first stays first.
func (j *judge) settleOrder() {
	remedies := j.advice.Remedies
	softening := slices.ContainsFunc(remedies, func(r Remedy) bool { return r.Kind == TurnClicks && r.Moves[0].Turn() == Softer })
	place := func(r Remedy) int {
		behind := r.High && softening && r.Moves[0].Turn() == Stiffer
		switch {
		case r.Kind != TurnClicks:
			return 0
		case r.Failed:
			return 4
		case r.Short && behind:
			return 3
		case r.Short || behind:
			return 2
		}
		return 1
	}
	slices.SortStableFunc(remedies, func(a, b Remedy) int { return place(a) - place(b) })
	j.startAgain()
	j.littleLeft()
}

// littleLeft tells where the row's only remedy would stiffen what stands above
// two thirds of its range.
func (j *judge) littleLeft() {
	var only []Remedy
	for _, r := range j.advice.Remedies {
		if r.Kind == TurnClicks {
			only = append(only, r)
		}
	}
	if len(only) != 1 || !only[0].High || only[0].Moves[0].Turn() != Stiffer {
		return
	}
	for _, m := range only[0].Moves {
		if j.car.Dampers[m.Corner.Axle()].NearHard(m.Adjuster, m.From) {
			j.advice.Facts = append(j.advice.Facts, Fact{Kind: LittleLeft, Axle: m.Corner.Axle(), Adjuster: m.Adjuster})
			return
		}
	}
}

// aboveMiddle tells whether any adjuster stands stiffer than its middle.
func (j *judge) aboveMiddle() bool {
	for c := range Corner(Corners) {
		d := j.car.Dampers[c.Axle()]
		for _, a := range d.Adjusters() {
			if d.aboveMiddle(a, j.at[c][a]) {
				return true
			}
		}
	}
	return false
}
