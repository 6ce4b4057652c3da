package tuning

import "time"

// Student is what a coach sees of one student at once. All of it but the event
// is of one car: the one that was changed, felt or complained of last, or the
// main one.
type Student struct {
	Coaching
	Name   string // how the student is known today
	Car    Car    // with dampers; zero where the student has none, or has not accepted yet
	Others bool   // the student runs other cars too
	Feels  []Feel // newest first, TrendOver at most
	Last   Change // the newest change since the dampers were fitted, zero for none
	Next   Event  // the one under way or the next that a car of theirs is in, zero for none

	Said   Complaint // the newest, not Made for none
	SaidAt time.Time
	Helped bool // a feel since then said better
}

// Open is the complaint that was said and is not yet better.
func (s Student) Open() (Complaint, bool) { return s.Said, s.Said.Made() && !s.Helped }
