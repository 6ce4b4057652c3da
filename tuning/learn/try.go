package learn

import (
	"math"
	"time"

	"detent/tuning"
)

// Key names the remedy that a try is evidence of.
type Key = tuning.RecipeKey

// Try is one change that made a remedy, and what was felt after it.
type Try struct {
	Car      int64
	Owner    string // the person whose car it is
	Change   int64
	Feel     int64
	Key      Key
	At       time.Time // of the feel
	Fraction float64   // u: clicks turned over clicks that the row asks for, above 0
	Reading
}

// Weight is what a try's evidence counts at a time: half as much after each year,
// and a quarter as much after each change of tyres, springs or dampers since its
// feel.
func (t Try) Weight(now time.Time, refits []time.Time) float64 {
	age := max(0, now.Sub(t.At))
	weight := math.Exp2(-float64(age) / float64(HalfLife))
	for _, r := range refits {
		if r.After(t.At) && !r.After(now) {
			weight *= refitted
		}
	}
	return weight
}
