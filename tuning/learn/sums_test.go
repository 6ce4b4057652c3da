package learn

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"detent/tuning"
)

// someTry draws a try of a remedy.
var someTry = rapid.Custom(func(t *rapid.T) Try {
	days := rapid.Float64Range(0, 1000).Draw(t, "days")
	return Try{
		At:       now.Add(-time.Duration(days * 24 * float64(time.Hour))),
		Fraction: rapid.Float64Range(0.1, 3).Draw(t, "fraction"),
		Reading: Reading{
			Moved:    rapid.Float64Range(-6, 6).Draw(t, "moved"),
			Variance: rapid.SampledFrom([]float64{0.6, 0.8, 1, 1.2, 1.6, 2}).Draw(t, "variance"),
			Helped:   rapid.Bool().Draw(t, "helped"),
			Worse:    rapid.Bool().Draw(t, "worse"),
		},
	}
})

func theSums(tries []Try) Sums { return SumsOf(tries, nil, now)[Key{}] }

func alike(a, b float64) bool { return math.Abs(a-b) <= 1e-9*max(1, math.Abs(a)) }

func TestOrderOfTriesMakesNoDifference(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tries := rapid.SliceOfN(someTry, 1, 8).Draw(t, "tries")
		one, other := theSums(tries), theSums(rapid.Permutation(tries).Draw(t, "shuffled"))
		if !alike(one.A, other.A) || !alike(one.B, other.B) || one.Tries != other.Tries || one.Helped != other.Helped ||
			one.Worse != other.Worse || !one.Last.Equal(other.Last) {
			t.Fatalf("%+v and %+v", one, other)
		}
	})
}

// A try never widens the interval, whatever its answer. One whose answer is what
// the estimate expects does not move it either.
func TestTriesNeverWidenTheInterval(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		own := theSums(rapid.SliceOfN(someTry, 0, 6).Draw(t, "tries"))
		club := ClubOf(rapid.Bool().Draw(t, "first"), []Sums{theSums(rapid.SliceOfN(someTry, 0, 6).Draw(t, "others"))})
		before, one := EstimateOf(own, club), someTry.Draw(t, "one more")
		one.Moved = one.Fraction * before.Mean
		after := EstimateOf(own.Add(one, one.Weight(now, nil)), club)
		if after.Variance > before.Variance*(1+1e-12) || !alike(after.Mean, before.Mean) {
			t.Fatalf("%+v became %+v", before, after)
		}
		same := EstimateOf(own, club)
		for range 3 {
			own = own.Add(one, 1)
			next := EstimateOf(own, club)
			if next.Variance >= same.Variance {
				t.Fatalf("equal answers widen %+v to %+v", same, next)
			}
			same = next
		}
	})
}

// A car without tries counts as if it had never been. So a person who leaves
// takes their tries out of the club with their cars.
func TestLeavingIsNeverHavingBeen(t *testing.T) {
	type person struct {
		name string
		cars [][]Try
	}
	draw := rapid.Custom(func(t *rapid.T) person {
		return person{rapid.SampledFrom([]string{"a", "b", "c", "d"}).Draw(t, "name"),
			rapid.SliceOfN(rapid.SliceOfN(someTry, 0, 4), 1, 2).Draw(t, "cars")}
	})
	rapid.Check(t, func(t *rapid.T) {
		people := rapid.SliceOfN(draw, 1, 5).Draw(t, "people")
		gone := rapid.SampledFrom(people).Draw(t, "who leaves").name
		var erased, never []CarTries
		for _, p := range people {
			for _, tries := range p.cars {
				if p.name == gone {
					erased = append(erased, CarTries{p.name, theSums(nil)}) // the car's rows are gone
					continue
				}
				kept := CarTries{p.name, theSums(tries)}
				erased, never = append(erased, kept), append(never, kept)
			}
		}
		one, other := ClubOf(true, onlySums(erased)), ClubOf(true, onlySums(never))
		if one != other || ClubTold("me", erased) != ClubTold("me", never) {
			t.Fatalf("%+v and %+v", one, other)
		}
	})
}

func onlySums(cars []CarTries) (sums []Sums) {
	for _, c := range cars {
		sums = append(sums, c.Sums)
	}
	return sums
}

func TestTheNewestTrySaysWhetherItFeltWorse(t *testing.T) {
	yes, no := answered(3, 1, tuning.BetterYes), answered(2, 1, tuning.BetterNo)
	if !theSums([]Try{no, yes}).Worse || theSums([]Try{answered(1, 1, tuning.BetterSame), no, yes}).Worse {
		t.Error("worse is not the newest try's")
	}
	other := no
	other.Key.Job = tuning.AnyBump
	sums := SumsOf([]Try{yes, other}, nil, now)
	if sums[Key{}].Tries != 1 || sums[other.Key].Tries != 1 || sums[Key{}].Worse {
		t.Errorf("the remedies are not kept apart: %+v", sums)
	}
}
