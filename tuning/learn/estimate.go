package learn

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Club is what the table and a club's other cars say of a remedy before this
// car has tried it: a normal distribution of the club's β.
type Club struct {
	Mean      float64 // m, marks
	Precision float64 // P, 1/marks²
}

// ClubOf is the club without the car at hand. First tells whether the rules of
// the table put the remedy first on that car; others are the sums of each other
// car, and a car without tries changes nothing.
func ClubOf(first bool, others []Sums) Club {
	var all Others
	for _, o := range others {
		all = all.add(o)
	}
	return all.Club(first)
}

// Estimate is what a remedy does on a car: a normal distribution of β, or of
// what is left of it.
type Estimate struct {
	Mean     float64 // marks, the way it should
	Variance float64 // marks², above 0
}

// EstimateOf is the estimate of a remedy as written, from a car's own tries
// and its club.
func EstimateOf(own Sums, club Club) Estimate {
	before := 1 / (carDev*carDev + 1/club.Precision) // 1/V₀
	variance := 1 / (own.A + before)
	return Estimate{Mean: variance * (own.B + club.Mean*before), Variance: variance}
}

// Shrunk is the estimate of a remedy of which only a fraction is turned.
func (e Estimate) Shrunk(fraction float64) Estimate {
	return Estimate{Mean: fraction * e.Mean, Variance: fraction * fraction * e.Variance}
}

// Deviation is the standard deviation, in marks.
func (e Estimate) Deviation() float64 { return math.Sqrt(e.Variance) }

// Interval90 is where β lies nine times in ten.
func (e Estimate) Interval90() (low, high float64) {
	half := interval90 * e.Deviation()
	return e.Mean - half, e.Mean + half
}

// BetterThan is how likely the remedy does more than another one, the two
// taken as independent.
func (e Estimate) BetterThan(other Estimate) float64 {
	return distuv.UnitNormal.CDF((e.Mean - other.Mean) / math.Sqrt(e.Variance+other.Variance))
}
