package learn

import "time"

// Sums are the tries of one remedy on one car, added up. The zero Sums are no
// tries.
type Sums struct {
	A float64 // Σ w·u²/R, 1/marks²
	B float64 // Σ w·u·y/R, 1/marks

	Tries  int
	Helped int
	Last   time.Time // of the newest try's feel
	Worse  bool      // the newest try felt worse
}

// Add returns the sums with one more try of a weight. The order in which tries
// are added makes no difference beyond rounding.
func (s Sums) Add(t Try, weight float64) Sums {
	s.A += weight * t.Fraction * t.Fraction / t.Variance
	s.B += weight * t.Fraction * t.Moved / t.Variance
	s.Tries++
	if t.Helped {
		s.Helped++
	}
	switch {
	case s.Tries == 1 || t.At.After(s.Last):
		s.Last, s.Worse = t.At, t.Worse
	case t.At.Equal(s.Last):
		s.Worse = s.Worse || t.Worse
	}
	return s
}

// SumsOf adds up the tries of one car, by remedy, as they weigh at a time.
// Refits are when its tyres, springs or dampers were changed.
func SumsOf(tries []Try, refits []time.Time, now time.Time) map[Key]Sums {
	sums := map[Key]Sums{}
	for _, t := range tries {
		sums[t.Key] = sums[t.Key].Add(t, t.Weight(now, refits))
	}
	return sums
}
