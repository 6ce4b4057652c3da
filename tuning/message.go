package tuning

import "time"

// CoachWord is what a coach put to a student: a note, or a suggestion.
type CoachWord struct {
	Coach     string // "" when it is gone
	CoachName string // how the coach is known today
	At        time.Time
	Note      string // what was written, "" for a suggestion
	Suggested *Given // nil for a note
	Seen      bool   // whether the student has read it
	Holds     bool   // whether the coaching does
	Told      bool   // whether the student was told how to stop such messages
}

// Unseen is the newest that coaches put to a student and the student has not
// read; zero for nothing.
type Unseen struct {
	CoachName string
	At        time.Time
	Car       string // that a suggestion is for, "" for a note
}

// EventMessage is what an organiser told those who were in an event.
type EventMessage struct {
	ID         int64
	Event      int64
	Sender     string
	SenderName string // how the sender is known today
	At         time.Time
	Text       string
	Cancels    bool // it tells that the event is cancelled
}
