package calendar

import (
	"slices"
	"time"

	"detent/tuning"
)

// Kind is what is due.
type Kind string

// The things that fall due.
const (
	AskFeel     Kind = "ask-feel"     // after an event: how did the car feel
	AskAgain    Kind = "ask-again"    // once more, a day later; then never
	CheckBefore Kind = "check-before" // before an event: clicks and hot pressures
	PostGuide   Kind = "post-guide"   // an event's guide in the club's channel
	Digest      Kind = "digest"       // a coach's week

	CoachNote    Kind = "coach-note"    // what a coach wrote, to the student
	Suggestion   Kind = "suggestion"    // what a coach suggested, to the student
	EventMessage Kind = "event-message" // what an organiser tells those who are in
)

// FromCoach tells whether a thing is what a coach put to a student.
func (k Kind) FromCoach() bool { return k == CoachNote || k == Suggestion }

// FromSomebody tells whether a thing is what somebody wrote.
func (k Kind) FromSomebody() bool { return k.FromCoach() || k == EventMessage }

// Due is one thing to do at a time. The truth is its row in the database: it
// is claimed with a lease, sent, and settled.
type Due struct {
	ID       int64
	Club     string
	Kind     Kind
	Person   string // who it is for, "" for the club's channel
	Event    int64  // 0 for none
	About    int64  // the note, suggestion or message that it brings, 0 for none
	At       time.Time
	Until    time.Time // after this it is of no use any more and is dropped with a note
	Attempts int       // how often it was claimed
	Lease    string    // the token of the claim, "" when it is not claimed
}

// Outcome is what came of a thing that was due.
type Outcome string

// The outcomes.
const (
	Sent    Outcome = "sent"
	Dropped Outcome = "dropped" // it was of no use any more
	GaveUp  Outcome = "gave up" // it could not be sent
)

// Occasion is what stands around a thing that is due at the moment it is to be
// sent.
type Occasion struct {
	Club   tuning.Club
	Left   bool             // whether the club has removed the program
	Member tuning.Member    // whom it is for, zero for the club's channel
	Event  tuning.Event     // zero for none
	Cars   []tuning.Entrant // the person's own entries in the event

	Word    tuning.CoachWord    // what a coach put to the person, zero when it is gone
	Message tuning.EventMessage // what an organiser wrote, zero when it is gone
}

// Moot says in a few words why a thing need not be sent any more at now; ""
// when it is still to be sent.
func (d Due) Moot(o Occasion, now time.Time) string {
	switch {
	case !now.Before(d.Until):
		return "too late to be of use"
	case o.Left:
		return "the club has removed the program"
	case d.Event != 0 && o.Event.Cancelled && !o.Message.Cancels:
		return "the event is cancelled"
	case d.Person == "":
		return ""
	case !o.Member.Reminders:
		return "they switched reminders off"
	case d.Kind.FromSomebody() && d.mootMessage(o) != "":
		return d.mootMessage(o)
	case d.Event != 0 && len(o.Cars) == 0:
		return "they are not entered any more"
	case d.Event != 0 && !slices.ContainsFunc(o.Cars, running):
		return "their car is retired"
	case d.Event != 0 && len(o.Wanted()) == 0:
		return "they want no reminder of this event"
	case (d.Kind == AskFeel || d.Kind == AskAgain) && len(o.Unanswered()) == 0:
		return "they have answered"
	}
	return ""
}

// running tells whether an entry is of a car that still runs.
func running(e tuning.Entrant) bool { return !e.Car.Retired }

// Wanted are the entries that a reminder is wanted for: of a car that is
// retired it is not.
func (o Occasion) Wanted() (wanted []tuning.Entrant) {
	for _, c := range o.Cars {
		if c.Reminded && running(c) {
			wanted = append(wanted, c)
		}
	}
	return wanted
}

// Unanswered are the wanted ones of which it was not said yet how the car felt.
func (o Occasion) Unanswered() (open []tuning.Entrant) {
	for _, c := range o.Wanted() {
		if !c.Answered {
			open = append(open, c)
		}
	}
	return open
}

// Ready returns the first moment from now on at which a thing may be sent: not
// before its time, and to a person not in the quiet hours, unless it is about
// an event that does not wait for their end. It returns a Refusal when the
// club's zone is none.
func (d Due) Ready(o Occasion, now time.Time) (time.Time, error) {
	if now.Before(d.At) {
		now = d.At
	}
	if d.Person == "" {
		return now, nil
	}
	h, err := HoursOf(o.Club)
	if err != nil {
		return time.Time{}, err
	}
	if d.Kind == EventMessage {
		return h.beforeEvent(o.Event, now), nil
	}
	return h.Decent(now), nil
}
