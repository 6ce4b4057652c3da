package tuning

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// dampersOf are the same dampers at both ends.
func dampersOf(d Damper) [Axles]Damper { return [Axles]Damper{d, d} }

func damperOf(ways Ways, clicks int) Damper {
	d := Damper{Ways: ways, Count: FromHard}
	if ways == 1 {
		d.Moves = MovesRebound
	}
	for _, a := range ways.Adjusters() {
		d.Range[a] = clicks
	}
	return d
}

// Common practice, no published source: the same part of the range, and the
// softer click where two are as near.
func TestCarryTakesTheSamePartOfTheRange(t *testing.T) {
	for _, c := range []struct {
		at, of, clicks, want int
		rounded              bool
	}{
		{14, 30, 30, 14, false}, {0, 30, 16, 0, false}, {30, 30, 16, 16, false}, {15, 30, 16, 8, false},
		{14, 30, 16, 7, true},  // 7.47
		{17, 30, 16, 9, true},  // 9.07
		{5, 20, 10, 2, true},   // 2.5: the softer
		{15, 20, 10, 7, true},  // 7.5: the softer
		{1, 2, 1, 0, true},     // 0.5
		{98, 99, 40, 40, true}, // 39.6
	} {
		var at, want Setting
		for corner := range Corner(Corners) {
			at[corner][Bump], at[corner][Rebound] = c.at, c.of
			want[corner][Bump], want[corner][Rebound] = c.want, c.clicks
		}
		got, carried := Carry(at, dampersOf(damperOf(2, c.of)), Car{Dampers: dampersOf(damperOf(2, c.clicks))}, Setting{})
		if got != want {
			t.Errorf("%d of %d on %d clicks: %v", c.at, c.of, c.clicks, got[FL])
		}
		rounded := 0
		for _, f := range carried {
			if f.Rounded() {
				rounded++
			}
		}
		if c.rounded != (rounded == Corners) || c.of == c.clicks && len(carried) != 0 {
			t.Errorf("%d of %d on %d clicks: %d rounded: %+v", c.at, c.of, c.clicks, rounded, carried)
		}
	}
}

// What does the work of an adjuster on other dampers.
func TestCarryBetweenKindsOfDamper(t *testing.T) {
	both := damperOf(1, 20)
	both.Moves = MovesBoth
	at := Setting{}
	for corner := range Corner(Corners) {
		at[corner] = [Adjusters]int{Bump: 2, LowBump: 4, HighBump: 6, Rebound: 8, LowRebound: 10, HighRebound: 12}
	}
	stands := Setting{}
	for corner := range Corner(Corners) {
		stands[corner] = [Adjusters]int{1, 1, 1, 1, 1, 1}
	}
	for name, c := range map[string]struct {
		from, to Damper
		want     [Adjusters]int
		lost     []Adjuster
	}{
		"two to three":             {damperOf(2, 20), damperOf(3, 20), [Adjusters]int{LowBump: 2, HighBump: 2, Rebound: 8}, nil},
		"two to four":              {damperOf(2, 20), damperOf(4, 20), [Adjusters]int{LowBump: 2, HighBump: 2, LowRebound: 8, HighRebound: 8}, nil},
		"three to two":             {damperOf(3, 20), damperOf(2, 20), [Adjusters]int{Bump: 4, Rebound: 8}, []Adjuster{HighBump}},
		"four to two":              {damperOf(4, 20), damperOf(2, 20), [Adjusters]int{Bump: 4, Rebound: 10}, []Adjuster{HighBump, HighRebound}},
		"four to one":              {damperOf(4, 20), damperOf(1, 20), [Adjusters]int{Rebound: 10}, []Adjuster{LowBump, HighBump, HighRebound}},
		"rebound alone to two":     {damperOf(1, 20), damperOf(2, 20), [Adjusters]int{Bump: 1, Rebound: 8}, nil},
		"both together to two":     {both, damperOf(2, 20), [Adjusters]int{Bump: 8, Rebound: 8}, nil},
		"two to both together":     {damperOf(2, 20), both, [Adjusters]int{Rebound: 8}, []Adjuster{Bump}},
		"rebound alone to one way": {damperOf(1, 20), damperOf(1, 20), [Adjusters]int{Rebound: 8}, nil},
	} {
		got, carried := Carry(at, dampersOf(c.from), Car{Dampers: dampersOf(c.to)}, stands)
		if got != (Setting{c.want, c.want, c.want, c.want}) {
			t.Errorf("%s: %v", name, got[FL])
		}
		var lost []Adjuster
		for _, f := range carried {
			if f.Corner == FL && f.How == NoTarget {
				lost = append(lost, f.Adjuster)
			}
			if f.How == NoSource && got[f.Corner][f.Adjuster] != 1 {
				t.Errorf("%s: %s has no source and moved", name, f.Adjuster)
			}
		}
		if diff := cmp.Diff(c.lost, lost); diff != "" {
			t.Errorf("%s: left out %s", name, diff)
		}
	}
}

// Nothing is carried past a stop, nor farther than half a click from its part
// of the range, and to the same dampers nothing moves.
func TestCarryStaysWithinItsRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := damperOf(Ways(rapid.IntRange(1, 4).Draw(t, "ways")), rapid.IntRange(1, MaxRange).Draw(t, "clicks"))
		to := damperOf(Ways(rapid.IntRange(1, 4).Draw(t, "ways now")), rapid.IntRange(1, MaxRange).Draw(t, "clicks now"))
		var at Setting
		for corner := range Corner(Corners) {
			for _, a := range from.Adjusters() {
				at[corner][a] = rapid.IntRange(0, from.Range[a]).Draw(t, "at")
			}
		}
		got, carried := Carry(at, dampersOf(from), Car{Dampers: dampersOf(to)}, Setting{})
		for corner := range Corner(Corners) {
			for a := range Adjuster(Adjusters) {
				if got[corner][a] < 0 || got[corner][a] > to.Range[a] {
					t.Fatalf("%s %s at %d of %d", corner, a, got[corner][a], to.Range[a])
				}
			}
		}
		for _, f := range carried {
			if apart := float64(f.To) - f.Exact; f.How == SamePart && (apart > 0.5 || apart <= -0.5-1e-9) {
				t.Fatalf("%+v", f)
			}
		}
		if back, facts := Carry(at, dampersOf(from), Car{Dampers: dampersOf(from)}, Setting{}); back != at || len(facts) != 0 {
			t.Fatalf("to the same dampers: %v, %+v", back, facts)
		}
	})
}
