package figures

import (
	"testing"

	"detent/tuning"
)

// Every probe is tried: ways to drive × clicks × roads × sensitivities.
func TestEveryProbe(t *testing.T) {
	car := nineCars()[1]
	m, at := modelOf(t, car), start(t, car)
	for where, want := range map[tuning.Where]int{tuning.Entry: 6 * 3 * 2 * 2, tuning.Mid: 3 * 2 * 2, tuning.Exit: 6 * 3 * 2 * 2} {
		advice := advise(t, car, at, tuning.Understeer, where)
		c, ok, err := m.change(advice.Complaint, at, advice.Remedies[0])
		if err != nil || !ok {
			t.Fatal(err)
		}
		points, err := c.balances()
		if err != nil {
			t.Fatal(err)
		}
		if len(points) != want {
			t.Errorf("%s: %d probes, want %d", where, len(points), want)
		}
	}
	// At a stop the clicks either side are those there is room for.
	moves := []tuning.Move{{Corner: tuning.RL, Adjuster: tuning.Bump, From: 0, To: 3}}
	if low, high := m.shiftWithinStops(moves, -clicksEitherSide), m.shiftWithinStops(moves, clicksEitherSide); low != 0 || high != clicksEitherSide {
		t.Errorf("from the soft stop there is room for %d and %d", low, high)
	}
}
