package tuning

import (
	"slices"
	"time"
)

// FactKind is what sort of fact an answer carries beside its remedies.
type FactKind string

// The facts, and which fields of Fact they fill.
const (
	UnequalSides  FactKind = "unequal sides"   // Axle, Adjuster, Left, Right: a remedy would move what stands apart
	FeltWorse     FactKind = "felt worse"      // Axle, Adjuster, Turn, At: that turn felt worse then
	LittleLeft    FactKind = "little left"     // Axle, Adjuster: it stands near full hard; spring, bump-stop or ride height matter more
	MidCorner     FactKind = "mid-corner"      // dampers do little there; springs, bars, tyres and ride height do more
	FaultTold     FactKind = "fault told"      // Word: the driver's last notes tell of something broken
	UntoldTries   FactKind = "untold tries"    // two tries one way, and not a word of how they felt
	Unrecorded    FactKind = "unrecorded"      // nobody has said where the clicks stand
	OrderOfRecord FactKind = "order of record" // the record changed the order of the table

	NoClicks     FactKind = "no clicks"     // no click answers the complaint
	ReadAs       FactKind = "read as"       // Where: the part of the corner to which the complaint belongs
	TwoTries     FactKind = "two tries"     // two tries one way brought no gain
	MoveTogether FactKind = "move together" // Part: one-way adjusters there move bump and rebound at once
	AtStop       FactKind = "at stop"       // Part, Axle, Adjuster or Job, Turn: at the stop, so that its remedy is left out
	StaysAtStop  FactKind = "stays at stop" // Part, Adjuster, Turn: at the stop, so that its part of a remedy stays
	NearStop     FactKind = "near stop"     // Part, Adjuster, Turn, Clicks: so many are left; on the whole car, of the corner that has fewest
	NoneForJob   FactKind = "none for job"  // Axle, Job: the dampers there have no adjuster for it
)

// Fact is something that an answer has to say beside its remedies, without the
// words for it.
type Fact struct {
	Kind        FactKind
	Part        Part
	Axle        Axle
	Adjuster    Adjuster
	Job         Job
	Left, Right int // clicks from full soft
	Turn        Turn
	Clicks      int
	Where       Where
	At          time.Time
	Word        string
}

// Tells tells whether the advice carries a fact of a kind.
func (a Advice) Tells(kind FactKind) bool {
	return slices.ContainsFunc(a.Facts, func(f Fact) bool { return f.Kind == kind })
}

// Equal are the moves that end a difference between the two sides: both to the
// softer of the two.
func (f Fact) Equal() []Move {
	softer := min(f.Left, f.Right)
	var moves []Move
	for i, from := range []int{f.Left, f.Right} {
		if from != softer {
			moves = append(moves, Move{f.Axle.Corners()[i], f.Adjuster, from, softer})
		}
	}
	return moves
}

// unequalSides lists the adjusters that remedies would move and whose two sides
// stand apart, in the order of the remedies. Going to a start ends the
// difference by itself.
func (j *judge) unequalSides() []Fact {
	var facts []Fact
	seen := map[Fact]bool{}
	for _, r := range j.advice.Remedies {
		if r.Kind.SetsAll() {
			continue
		}
		for _, m := range r.Moves {
			axle := m.Corner.Axle()
			sides := axle.Corners()
			f := Fact{Kind: UnequalSides, Axle: axle, Adjuster: m.Adjuster, Left: j.at[sides[0]][m.Adjuster], Right: j.at[sides[1]][m.Adjuster]}
			if f.Left != f.Right && !seen[f] {
				seen[f] = true
				facts = append(facts, f)
			}
		}
	}
	return facts
}
