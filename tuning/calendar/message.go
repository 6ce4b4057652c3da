package calendar

import (
	"time"

	"detent/tuning"
)

// wordFades is how long what a coach wrote is of use as a message. It can be
// read for good elsewhere.
const wordFades = 72 * time.Hour

// ForStudent returns the message that brings a student what a coach put to
// them: a note or a suggestion, by its number. It is due at once, at a decent
// hour. It returns a Refusal when the club's zone is none.
func ForStudent(club tuning.Club, kind Kind, about int64, now time.Time) (Due, error) {
	h, err := HoursOf(club)
	if err != nil {
		return Due{}, err
	}
	at := h.Decent(now)
	return Due{Club: club.Key, Kind: kind, About: about, At: at, Until: at.Add(wordFades)}, nil
}

// ForEntrants returns the message that tells those who are in an event
// something, which is of use until the event is over. It returns a Refusal
// when the club's zone is none.
func ForEntrants(club tuning.Club, event tuning.Event, about int64, now time.Time) (Due, error) {
	h, err := HoursOf(club)
	if err != nil {
		return Due{}, err
	}
	return Due{Club: club.Key, Kind: EventMessage, Event: event.ID, About: about, At: h.beforeEvent(event, now), Until: event.Ends}, nil
}

// beforeEvent returns the moment from t on at which people may be told
// something of an event. It waits for the end of the quiet hours where that
// comes in good time before the event starts, and otherwise does not wait.
func (h Hours) beforeEvent(e tuning.Event, t time.Time) time.Time {
	decent := h.Decent(t)
	if decent.After(e.Starts.Add(-morning)) {
		return t
	}
	return decent
}

// mootMessage is Moot for what somebody wrote.
func (d Due) mootMessage(o Occasion) string {
	word := o.Word
	switch {
	case o.Member.Muted:
		return "they switched messages off"
	case d.Kind == EventMessage && o.Message.ID == 0, d.Kind.FromCoach() && word.Coach == "":
		return "what was written is gone"
	case d.Kind == EventMessage:
		return ""
	case !word.Holds:
		return "the coaching has ended"
	case word.Seen:
		return "they have read it"
	case word.Suggested == nil:
		return ""
	}
	given := word.Suggested
	switch {
	case given.Applied != 0 || given.Declined:
		return "they have answered it"
	case given.Stands != given.Setting:
		return "the clicks have moved since"
	case given.Car.Retired:
		return "their car is retired"
	case tuning.Fault(given.Notes) != "":
		return "their last notes speak of a fault"
	}
	return ""
}
