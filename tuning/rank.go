package tuning

import "slices"

// rank settles the order: a remedy short of clicks goes behind the next, a
// stiffening one on an adjuster that stands high goes behind a softening one,
// and where both stand high the start comes before either. What memory put
// first stays first.
func (j *judge) rank() {
	var table []Remedy
	softening := false
	for _, r := range j.advice.Remedies {
		if r.Kind == TurnClicks {
			table = append(table, r)
			softening = softening || r.Moves[0].Turn() == Softer
		}
	}
	place := func(r Remedy) int {
		switch behind := r.High && softening && r.Moves[0].Turn() == Stiffer; {
		case r.Kind != TurnClicks:
			return 0
		case r.Short && behind:
			return 3
		case r.Short || behind:
			return 2
		}
		return 1
	}
	remedies := j.advice.Remedies
	slices.SortStableFunc(remedies, func(a, b Remedy) int { return place(a) - place(b) })
	allHigh := len(table) > 1 && !slices.ContainsFunc(table, func(r Remedy) bool { return !r.High })
	if allHigh {
		if back, ok := j.returnToBaseline("Both remedies' adjusters stand above two thirds of their range: start again from the soft side."); ok {
			at := slices.IndexFunc(remedies, func(r Remedy) bool { return r.Kind == TurnClicks })
			j.advice.Remedies = slices.Insert(remedies, at, back)
		}
	}
}

// aboveMiddle tells whether any adjuster stands stiffer than its middle.
func (j *judge) aboveMiddle() bool {
	for c := range Corner(Corners) {
		d := j.car.Dampers[c.Axle()]
		for _, a := range d.Adjusters() {
			if 2*j.at[c][a] > d.Range[a] {
				return true
			}
		}
	}
	return false
}

// returnToBaseline is the remedy that goes back to the start, with every
// adjuster of every corner listed. ok is false when the car stands there.
func (j *judge) returnToBaseline(why string) (Remedy, bool) {
	start, err := Baseline(j.car, j.complaint.Weather, j.sizes)
	if err != nil || start == j.at {
		return Remedy{}, false
	}
	return Remedy{Kind: ReturnBaseline, Why: why, Watch: "a car that rolls and floats more, and gives more warning",
		Confidence: CommonPractice, Moves: j.at.Across(start, j.car)}, true
}
