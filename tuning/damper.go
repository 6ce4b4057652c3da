package tuning

import (
	"fmt"
)

// Ways is how many adjusters a damper has, as the trade counts them.
type Ways int

// WaysWords are the words for one to four ways, in order.
var WaysWords = []string{"one", "two", "three", "four"}

func (w Ways) String() string {
	if w < 1 || w > 4 {
		return "none"
	}
	return WaysWords[w-1]
}

// Adjusters lists what a damper of so many ways carries, in the order shown.
func (w Ways) Adjusters() []Adjuster {
	switch w {
	case 1:
		return []Adjuster{Rebound}
	case 2:
		return []Adjuster{Bump, Rebound}
	case 3:
		return []Adjuster{LowBump, HighBump, Rebound}
	case 4:
		return []Adjuster{LowBump, HighBump, LowRebound, HighRebound}
	}
	return nil
}

// Count is the stop that a member counts clicks from.
type Count string

// The two ways to count.
const (
	FromSoft Count = "soft"
	FromHard Count = "hard"
)

// Moves is what the single adjuster of a one-way damper moves.
type Moves string

// What a one-way adjuster can move.
const (
	MovesRebound Moves = "rebound"
	MovesBoth    Moves = "both"
)

// MaxRange is the most clicks an adjuster may have. Real ones end near 40; the
// bound only catches slips of the thumb.
const MaxRange = 99

// Damper describes the pair of dampers on one axle. The zero Damper means that
// none is known.
type Damper struct {
	Ways  Ways
	Range [Adjusters]int // clicks between the stops: Range+1 positions; 0 where there is no such adjuster
	Count Count          // the stop the member counts from
	Moves Moves          // for a one-way damper only
}

// Fitted tells whether the axle has known dampers.
func (d Damper) Fitted() bool { return d.Ways != 0 }

// Has tells whether the damper carries the adjuster.
func (d Damper) Has(a Adjuster) bool { return d.Range[a] > 0 }

// Adjusters lists what the damper carries, in the order shown.
func (d Damper) Adjusters() []Adjuster { return d.Ways.Adjusters() }

// Label names an adjuster of this damper in a sentence. The single adjuster
// that moves both directions is named as such.
func (d Damper) Label(a Adjuster) string {
	if d.Ways == 1 && d.Moves == MovesBoth {
		return "one-way adjuster"
	}
	return a.Label()
}

// MovesBump tells whether turning the adjuster changes bump damping.
func (d Damper) MovesBump(a Adjuster) bool {
	return a.isBump() || (d.Ways == 1 && d.Moves == MovesBoth)
}

// Validate returns a Refusal when the damper cannot exist as described.
func (d Damper) Validate() error {
	if d.Ways < 1 || d.Ways > 4 {
		return NoWays
	}
	carried := d.Adjusters()
	for a := range Adjuster(Adjusters) {
		has := false
		for _, c := range carried {
			has = has || c == a
		}
		switch n := d.Range[a]; {
		case has && n == 0:
			return BadRange{Adjuster: a}
		case has && (n < 1 || n > MaxRange):
			return BadRange{a, n}
		case !has && n != 0:
			return NoAdjuster{d.Ways, a}
		}
	}
	if d.Count != FromSoft && d.Count != FromHard {
		return NoCount
	}
	if d.Ways == 1 && d.Moves != MovesRebound && d.Moves != MovesBoth {
		return NoMoves
	}
	if d.Ways != 1 && d.Moves != "" {
		return NeedlessMove
	}
	return nil
}

// Counted turns clicks from full soft into the member's own counting, and the
// member's counting into clicks from full soft: it is its own inverse.
func (d Damper) Counted(a Adjuster, clicks int) int {
	if d.Count == FromHard {
		return d.Range[a] - clicks
	}
	return clicks
}

// Shown prints a position in the member's own counting: "12 from hard".
func (d Damper) Shown(a Adjuster, position int) string {
	return fmt.Sprintf("%d from %s", d.Counted(a, position), d.Count)
}

// ShownBoth prints a position in the member's own counting with the other in
// brackets: "12 from hard (18 from soft)".
func (d Damper) ShownBoth(a Adjuster, position int) string {
	other := d
	other.Count = FromHard
	if d.Count == FromHard {
		other.Count = FromSoft
	}
	return fmt.Sprintf("%s (%s)", d.Shown(a, position), other.Shown(a, position))
}

// Read turns a position typed in the member's own counting into clicks from
// full soft. It returns a Refusal when the position is past a stop.
func (d Damper) Read(a Adjuster, typed int) (position int, err error) {
	if !d.Has(a) {
		return 0, NoAdjuster{d.Ways, a}
	}
	if typed < 0 || typed > d.Range[a] {
		return 0, PastStop{a, typed, d.Range[a], d.Count}
	}
	return d.Counted(a, typed), nil
}
