package tuning

import "slices"

// Adjuster is one knob of a damper. It indexes arrays of length Adjusters.
type Adjuster int

// The adjusters a damper can have. The single adjuster of a one-way damper is
// Rebound, whatever it moves.
const (
	Bump Adjuster = iota
	LowBump
	HighBump
	Rebound
	LowRebound
	HighRebound

	Adjusters = 6
)

var adjusterWords = [Adjusters]string{"bump", "low-bump", "high-bump", "rebound", "low-rebound", "high-rebound"}

func (a Adjuster) String() string { return adjusterWords[a] }

// Label is the adjuster as the trade says it in a sentence.
func (a Adjuster) Label() string {
	return [Adjusters]string{"bump", "low-speed bump", "high-speed bump",
		"rebound", "low-speed rebound", "high-speed rebound"}[a]
}

// ParseAdjuster returns the adjuster that a word such as "low-bump" names.
func ParseAdjuster(word string) (a Adjuster, ok bool) {
	i := slices.Index(adjusterWords[:], word)
	return Adjuster(i), i >= 0
}

// isBump tells whether the adjuster controls bump by its name.
func (a Adjuster) isBump() bool { return a == Bump || a == LowBump || a == HighBump }
