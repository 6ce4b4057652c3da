package learn

import (
	"time"

	"detent/tuning"
)

// Every constant is from memory of how drivers answer and how cars differ;
// there is no published source.
const (
	firstMean = 0.5  // μ₀ in marks, of the remedy that the table puts first on the car
	otherMean = 0.3  // μ₀ of the others
	clubDev   = 0.25 // τ_k in marks, how far a club's cars as a whole may be from the table
	carDev    = 0.45 // τ_c in marks, how far a car may be from its club

	marksVariance = 1.0 // R of a mark before and after, of balance or of grip
	wordsVariance = 0.8 // R of better, the same or worse
	bothVariance  = 0.6 // R of their mean
	wordsMarks    = 0.9 // y of "better", and its negative of "worse"

	HalfLife = 365 * 24 * time.Hour // of a try's weight
	refitted = 0.25                 // the part of it that each later change of tyres, springs or dampers leaves

	enoughTries = 2    // answered tries of the complaint after which the car's own order holds
	sureEnough  = 0.60 // how likely another remedy must be the better one to come first before that

	// clubCars is how many cars of how many people must know something before
	// anything is said of the club.
	clubCars = tuning.EnoughToTell

	interval90 = 1.6448536269514722 // standard deviations on each side of a 90 % interval
)
