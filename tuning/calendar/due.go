// Package calendar says when something is due: in the club's own time zone, at
// a decent hour, on the days when the clocks change too. It reads no clock.
package calendar

import "time"

// Kind is what is due.
type Kind string

// The things that fall due.
const (
	AskFeel     Kind = "ask-feel"     // after an event: how did the car feel
	AskAgain    Kind = "ask-again"    // once more, a day later; then never
	CheckBefore Kind = "check-before" // before an event: clicks and hot pressures
	PostGuide   Kind = "post-guide"   // an event's guide in the club's channel
	Digest      Kind = "digest"       // a coach's week
)

// Due is one thing to do at a time. The truth is its row in the database: it
// is claimed with a lease, sent, and settled.
type Due struct {
	ID       int64
	Club     string
	Kind     Kind
	Person   string // who it is for, "" for the club's channel
	Event    int64  // 0 for none
	At       time.Time
	Until    time.Time // after this it is of no use any more and is dropped with a note
	Attempts int
}
