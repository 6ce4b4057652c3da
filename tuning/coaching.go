package tuning

import "time"

// Coaching is the tie between a coach and a student. The coach asks for it, the
// student accepts it, and it holds until either ends it.
type Coaching struct {
	ID       int64
	Coach    string
	Student  string
	Asked    time.Time
	Accepted time.Time // zero while it is only asked for
	Ended    time.Time // zero until one of them ends it
}

// Holds tells whether the coach may look at the student's cars.
func (c Coaching) Holds() bool { return !c.Accepted.IsZero() && c.Ended.IsZero() }

// CoachNote is what a coach wrote to a student.
type CoachNote struct {
	ID        int64
	Coach     string
	CoachName string // how the coach is known today
	Student   string
	At        time.Time
	Text      string
}

// Look is one time that a coach looked at a student's things.
type Look struct {
	Coach     string // "" for one who has left for good
	CoachName string // how the coach is known today
	At        time.Time
	What      string
}

// Suggestion is a change that a coach put to a student, kept as an advice that
// waits to be applied or declined.
type Suggestion struct {
	Advice    Advice
	Coach     string
	CoachName string // how the coach is known today
	Car       Car
	At        time.Time
}
