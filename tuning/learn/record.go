package learn

import (
	"slices"
	"time"

	"detent/tuning"
)

// Record is all that was done and felt on one car, as it can be learned from.
type Record struct {
	Car     tuning.Car // as it is now, with its dampers
	Sizes   tuning.Sizes
	Entries []Entry // oldest first
}

// Entry is one entry of a record: Asked, Changed, Refitted or Felt.
type Entry interface{ entry() }

// Asked is a complaint that was answered. What is turned by hand, or as a coach
// suggested, is read as a remedy for the last one.
type Asked struct {
	Complaint tuning.Complaint
}

// Changed is a change of clicks.
type Changed struct {
	tuning.Change
	Kind   tuning.RemedyKind // of the advice's remedy that was applied, "" for none
	Turned bool              // ByHand: turned now; otherwise the record was corrected and nothing was turned
	Fitted tuning.Damper     // ByFitting: what was fitted, zero where that is no longer known
}

// Refitted is a change of tyres or springs. Fitting dampers is a Changed of its
// own reason.
type Refitted struct {
	At time.Time
}

// Felt is how the car felt over a run. A run of the grip search is a feel that
// tells its grip alone.
type Felt struct {
	tuning.Feel
	Weather tuning.Weather // of the run, "" where nobody said
}

func (Asked) entry()    {}
func (Changed) entry()  {}
func (Refitted) entry() {}
func (Felt) entry()     {}

// Refits lists when tyres, springs or dampers were changed, oldest first. The
// two axles that get dampers at one moment are one refit.
func (r Record) Refits() []time.Time {
	var refits []time.Time
	for _, e := range r.Entries {
		switch e := e.(type) {
		case Refitted:
			refits = append(refits, e.At)
		case Changed:
			if e.Reason == tuning.ByFitting {
				refits = append(refits, e.At)
			}
		}
	}
	return slices.CompactFunc(refits, time.Time.Equal)
}

// Tries lists the tries of the record, oldest first.
//
// A change is a try when it makes a remedy of its complaint's row and a feel
// follows it with at most one more change between. A change that is taken back
// before any feel, and what took it back, are as if they had not been; a
// correction of the record is no change at all. Other tyres or springs count as
// a change, and with other dampers the record begins anew. Going back, half back
// or to a start, and setting clicks that were kept, are changes but never tries.
func (r Record) Tries() []Try {
	read := reader{record: r, car: r.Car}
	read.forgetOldDampers()
	for _, e := range r.Entries {
		switch e := e.(type) {
		case Asked:
			if e.Complaint.Made() {
				read.asked = &e.Complaint
			}
		case Changed:
			read.changed(e)
		case Refitted:
			read.run = append(read.run, step{})
		case Felt:
			read.felt(e)
		}
	}
	return read.tries
}
