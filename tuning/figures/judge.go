package figures

import (
	"math"
	"slices"

	"detent/tuning"
	"detent/tuning/ride"
)

// Judgement is what the model makes of a remedy: facts, for others to put into
// words. It never reorders the remedies.
type Judgement struct {
	Word   Word
	Counts Counts  // what the word is about
	Points float64 // in the ordinary probe at today's clicks, above 0 the wanted way
	Most   float64 // the largest |Points| of any probe
	Leans  Leaning
	Gains  tuning.Axle // for Balance, the axle that is to gain
	Phase  Phase       // for Balance, where in the corner
	Does   Effect      // what the remedy does by itself
	Peak   Peak
	Rests  Rests
}

// Word is the verdict itself.
type Word string

// The verdicts. Unknown means that the car has no model.
const (
	Agrees    Word = "agrees"
	Neutral   Word = "neutral"
	Disagrees Word = "disagrees"
	Unknown   Word = "unknown"
)

// Counts is what a verdict is about.
type Counts int

const (
	Nothing   Counts = iota
	Balance          // front against rear, in points of per cent of an axle's capacity
	Grip             // the grip of the axles, in per cent
	KerbGrip         // their grip over a kerb, in per cent
	Mechanism        // what the remedy does by itself; Points are per cent of what was there before
)

// Leaning is which way every probe leans.
type Leaning string

// The leanings.
const (
	With    Leaning = "with"
	Against Leaning = "against"
	Either  Leaning = "either"
)

// A verdict needs every probe to lean one way, and none by less than a floor: 0.2
// points of balance or per cent of grip, or 5 per cent of a mechanism. From
// memory: what a driver can feel.
const (
	floor          = 0.2
	mechanismFloor = 5.0
)

// Judge measures a remedy for a complaint on the member's car, or on an ordinary
// one of its layout where too little is known. ok is false where the model has no
// measure: for a change taken back, a return to the start, and complaints that it
// cannot measure.
func (m Model) Judge(c tuning.Complaint, at tuning.Setting, r tuning.Remedy) (j Judgement, ok bool, err error) {
	change, ok, err := m.change(c, at, r)
	if err != nil || !ok {
		return Judgement{}, ok, err
	}
	if j, err = change.judgement(); err != nil {
		return Judgement{}, true, err
	}
	if j.Does, err = change.effect(change.asks.mechanism); err != nil {
		return Judgement{}, true, err
	}
	j.Peak, err = change.peak()
	return j, true, err
}

// Word is the word of Judge alone, for a small part of its cost. It measures the
// road part of every probe first, and then drives flat runs until one of them
// settles the word.
func (m Model) Word(c tuning.Complaint, at tuning.Setting, r tuning.Remedy) (w Word, ok bool, err error) {
	change, ok, err := m.change(c, at, r)
	if err != nil || !ok {
		return Unknown, ok, err
	}
	if change.asks.counts == Balance {
		w, err = change.balanceWord()
		return w, true, err
	}
	j, err := change.judgement()
	if err != nil {
		return Unknown, true, err
	}
	return j.Word, true, nil
}

// judgement weighs what the complaint asks for.
func (c *change) judgement() (j Judgement, err error) {
	j = Judgement{Counts: c.asks.counts, Gains: c.asks.gains, Phase: c.asks.phase, Rests: OnDampers}
	var points []float64 // the ordinary probe first
	switch c.asks.counts {
	case Balance:
		j.Rests = OnWhole
		points, err = c.balances()
	case Grip, KerbGrip:
		points, err = c.grips()
	case Mechanism:
		if c.asks.mechanism == Dive {
			j.Rests = OnWhole
		}
		points, err = c.mechanisms()
	}
	if err != nil {
		return Judgement{}, err
	}
	if slices.ContainsFunc(points, func(p float64) bool { return !finite(p) }) {
		return Judgement{}, Unanswered{Task: CompareGrip, Err: errNoFigure}
	}
	j.weigh(points)
	return j, nil
}

// weigh turns the points of all probes, the ordinary one first, into a word.
func (j *Judgement) weigh(points []float64) {
	least := math.Inf(1)
	with, against := true, true
	for _, p := range points {
		with, against = with && p > 0, against && p < 0
		least, j.Most = min(least, math.Abs(p)), max(j.Most, math.Abs(p))
	}
	needed := floor
	if j.Counts == Mechanism {
		needed = mechanismFloor
	}
	j.Points, j.Leans, j.Word = points[0], Either, Neutral
	switch {
	case with:
		j.Leans = With
	case against:
		j.Leans = Against
	}
	switch {
	case least < needed:
	case with:
		j.Word = Agrees
	case against:
		j.Word = Disagrees
	}
}

// Felt tells whether any probe moves as much as a driver can feel.
func (j Judgement) Felt() bool {
	if j.Counts == Mechanism {
		return j.Most >= mechanismFloor
	}
	return j.Most >= floor
}

// sensitivities are the sensitivities of grip to load that every probe is tried
// with.
var sensitivities = [...]ride.Sensitivity{ride.Ordinary, ride.Steep}
