package learn

import (
	"math"

	"detent/tuning"
)

// Told is what the sentence about a remedy on a car tells.
type Told struct {
	Turns  []Turned
	Tries  int // answered on this car
	Helped int
	// Mean and Half are the estimate of the remedy as it is turned today and half
	// its 90 % interval, in marks, rounded to halves.
	Mean, Half float64
	Hardly     bool      // the mean is below a quarter of a mark either way
	Club       ClubTries // zero where too few cars know anything
}

// Turned is what one axle turns.
type Turned struct {
	Axle     tuning.Axle
	Adjuster tuning.Adjuster
	Clicks   int
	Turn     tuning.Turn
}

// Helps tells whether a remedy counts among what helped: it did more often than
// not, and where it did as often as not, by its estimate.
func (t Told) Helps() bool {
	if 2*t.Helped != t.Tries {
		return 2*t.Helped > t.Tries
	}
	return t.Mean > 0 && !t.Hardly
}

// ClubTries is what may be said of the other cars of a club.
type ClubTries struct {
	Cars   int
	Tries  int
	Helped int
}

// CarTries are the sums of another car of the club for one remedy.
type CarTries struct {
	Owner string
	Sums  Sums
}

// hardly is the mean below which a remedy does hardly anything.
const hardly = 0.25

// Tell gathers what is said of a remedy: the moves that it makes today, the
// estimate of the remedy as written shrunk to those, and the tries.
func Tell(moves []tuning.Move, estimate Estimate, own Sums, club ClubTries) Told {
	return Told{
		Turns: turnsOf(moves), Tries: own.Tries, Helped: own.Helped, Club: club,
		Mean: toHalves(estimate.Mean), Half: toHalves(interval90 * estimate.Deviation()),
		Hardly: math.Abs(estimate.Mean) < hardly,
	}
}

// ClubTold adds up the tries of the other cars of a club, as far as they may be
// told.
func ClubTold(owner string, others []CarTries) ClubTries { return OthersOf(owner, others).Told() }

// turnsOf lists what turns, the two sides of an axle as one.
func turnsOf(moves []tuning.Move) []Turned {
	var turns []Turned
	seen := map[Turned]bool{}
	for _, m := range moves {
		t := Turned{m.Corner.Axle(), m.Adjuster, m.Clicks(), m.Turn()}
		if t.Clicks > 0 && !seen[t] {
			seen[t] = true
			turns = append(turns, t)
		}
	}
	return turns
}

// toHalves rounds to the nearest half, away from zero where two are as near.
func toHalves(v float64) float64 { return math.Round(2*v) / 2 }
