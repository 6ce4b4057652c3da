package learn

import "detent/tuning"

// Evidence is what the record holds of the remedies that were asked after.
type Evidence struct {
	Own    map[Key]Sums
	Others map[Key]Others
}

// Knowledge is what the record knows of one complaint on one car.
type Knowledge struct {
	Car       tuning.Car
	Complaint tuning.Complaint
	History   tuning.History // for the rules of the table that look back
	Sizes     tuning.Sizes
	Evidence
}

// Learned is what the record knows of a remedy as it is turned today.
type Learned struct {
	Estimate Estimate // shrunk where few clicks are left
	Own      Sums
	Club     ClubTries // zero where too few cars know anything
}

// Of is what is known of a remedy. ok is false for one that is no row of the
// table: going back, to a start, or making sides equal.
func (k Knowledge) Of(r tuning.Remedy) (l Learned, ok bool) {
	if r.Kind != tuning.TurnClicks {
		return l, false
	}
	match, ok := tuning.MatchMoves(k.Car, k.Complaint, r.Moves, k.Sizes)
	if !ok {
		return l, false
	}
	l = k.Written(match.Key)
	l.Estimate = l.Estimate.Shrunk(match.Fraction)
	return l, true
}

// Written is what is known of a remedy of the complaint's row, as the table
// writes it.
func (k Knowledge) Written(key Key) Learned {
	recipes := tuning.RecipesFor(k.Car, k.Complaint, k.History)
	first := len(recipes) > 0 && recipes[0] == key
	own, others := k.Own[key], k.Others[key]
	return Learned{Estimate: EstimateOf(own, others.Club(first)), Own: own, Club: others.Told()}
}

// Tell gathers what is said of a remedy; ok as for Of.
func (k Knowledge) Tell(r tuning.Remedy) (t Told, ok bool) {
	l, ok := k.Of(r)
	if !ok {
		return t, false
	}
	return Tell(r.Moves, l.Estimate, l.Own, l.Club), true
}

// Prefer is the order of the record, for tuning.History. The order of the table
// stands where one of the remedies is no row of it.
func (k Knowledge) Prefer(remedies []tuning.Remedy) []int {
	var candidates []Candidate
	known := true
	for _, r := range remedies {
		l, ok := k.Of(r)
		known = known && ok
		candidates = append(candidates, Candidate{l.Estimate, l.Own.Worse})
	}
	if known {
		return Order(candidates, k.answered())
	}
	stand := make([]int, len(remedies))
	for i := range stand {
		stand[i] = i
	}
	return stand
}

// answered counts the tries of the complaint that were answered on the car.
func (k Knowledge) answered() int {
	recipes := tuning.RecipesFor(k.Car, k.Complaint, k.History)
	if len(recipes) == 0 {
		return 0
	}
	tries := 0
	for key, sums := range k.Own {
		if key.Row == recipes[0].Row {
			tries += sums.Tries
		}
	}
	return tries
}
