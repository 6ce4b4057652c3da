package tuning

import (
	"time"

	"detent/tuning/unit"
)

// Conditions are how wet the track was over a run; "" is not said.
type Conditions string

// The conditions.
const (
	ItWasDry  Conditions = "dry"
	ItWasDamp Conditions = "damp"
	ItWasWet  Conditions = "wet"
)

// Feel is how the car felt over a run, in the driver's words and marks.
// Balance marks run from -3 (pushes wide) over 0 (neutral) to +3 (comes
// round); nil is not said.
type Feel struct {
	ID     int64
	Car    int64
	Person string
	At     time.Time
	Event  int64 // 0 for none
	Change int64 // the last change before it, 0 for none
	Grip   int   // 1 to 10
	Entry  *int
	Mid    *int
	Exit   *int
	Hop    *bool
	Better Better
	Lap    time.Duration // 0 for none
	Notes  string

	Hot        Pressures // of the tyres after the run
	Conditions Conditions
	Air, Track unit.Temperature // 0 is not said
}

// MaxNotes is the longest note kept with a feel, in characters.
const MaxNotes = 1000

// Validate returns a Refusal for a mark off its scale.
func (f Feel) Validate() error {
	if f.Grip < 1 || f.Grip > 10 {
		return BadGrip
	}
	for _, m := range []struct {
		where Where
		mark  *int
	}{{Entry, f.Entry}, {Mid, f.Mid}, {Exit, f.Exit}} {
		if m.mark != nil && (*m.mark < -3 || *m.mark > 3) {
			return BadMark{m.where}
		}
	}
	if f.Lap < 0 || f.Lap > time.Hour {
		return BadLap
	}
	if len([]rune(f.Notes)) > MaxNotes {
		return NotesTooLong
	}
	return nil
}

// entryAndMidGood tells whether the driver marked both as neutral.
func (f *Feel) entryAndMidGood() bool {
	return f != nil && f.Entry != nil && f.Mid != nil && *f.Entry == 0 && *f.Mid == 0
}
