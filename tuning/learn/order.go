package learn

import "slices"

// Candidate is a remedy that can be offered, as it can be turned today.
type Candidate struct {
	Estimate Estimate // shrunk where few clicks are left
	Worse    bool     // its last try on this car felt worse
}

// Order returns the candidates' places in the order to offer them. They stand
// in the table's order, which holds until enough tries of the complaint on this
// car have been answered, unless another is likely enough the better one. A
// remedy whose last try felt worse goes behind the others.
func Order(candidates []Candidate, answered int) []int {
	before := func(a, b Candidate) bool { // a, which stands behind b, goes before it
		if answered >= enoughTries {
			return a.Estimate.Mean > b.Estimate.Mean
		}
		return a.Estimate.BetterThan(b.Estimate) >= sureEnough
	}
	var order []int
	for i, c := range candidates {
		at := len(order)
		for at > 0 && before(c, candidates[order[at-1]]) {
			at--
		}
		order = slices.Insert(order, at, i)
	}
	slices.SortStableFunc(order, func(a, b int) int { return behind(candidates[a]) - behind(candidates[b]) })
	return order
}

func behind(c Candidate) int {
	if c.Worse {
		return 1
	}
	return 0
}
