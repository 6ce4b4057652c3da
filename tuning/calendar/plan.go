package calendar

import (
	"time"

	"detent/tuning"
)

// When things are due is the club's to set where it has a setting, and
// otherwise this program's own choice.
const (
	evening     = 19 * time.Hour   // time of day, the day before an event, to check the car
	morning     = 2 * time.Hour    // before an event: to check the car, when the evening has passed, and to read what is told of it
	lastCheck   = 30 * time.Minute // before an event: after that nobody reads
	apart       = 12 * time.Hour   // between the two questions after an event, at least
	feelFades   = 36 * time.Hour   // from the second question to where the memory has gone
	digestAt    = 9 * time.Hour    // time of day, on a Monday
	digestFades = 72 * time.Hour
)

// ForEntrant returns what is due of an event for somebody who entered it, in
// order of time, as it stands at now: a reminder to check the car before, and
// after it the question how the car felt, with once more a day later. What has
// passed is due at once while it is of use, at a decent hour, and left out
// when it is not; of a car that is retired nothing is due. It returns a Refusal when the club's zone is none.
func ForEntrant(club tuning.Club, event tuning.Event, entrant tuning.Entrant, now time.Time) ([]Due, error) {
	h, err := HoursOf(club)
	if err != nil || event.Cancelled || !entrant.Reminded || !running(entrant) {
		return nil, err
	}
	due := h.check(event, now)
	if !entrant.Answered {
		for _, d := range h.asks(event.Ends.Add(club.RemindAfter)) {
			if d.At.Before(now) {
				d.At = h.Decent(now)
			}
			if d.At.Before(d.Until) {
				due = append(due, d)
			}
		}
	}
	for i := range due {
		due[i].Club, due[i].Person, due[i].Event = club.Key, entrant.Person, event.ID
	}
	return due, nil
}

// check is the reminder to check the car, none when it is too late for that.
func (h Hours) check(event tuning.Event, now time.Time) []Due {
	for _, wish := range []time.Time{h.after(event.Starts, -1, evening), event.Starts.Add(-morning)} {
		at := h.Decent(wish)
		if !at.Before(now) && at.Before(event.Starts.Add(-lastCheck)) {
			return []Due{{Kind: CheckBefore, At: at, Until: event.Starts}}
		}
	}
	return nil
}

// asks are the two times to ask how the car felt, the first at the given time
// or the next decent one. The first is of no use any more when the second is
// near.
func (h Hours) asks(at time.Time) []Due {
	first := h.Decent(at)
	second := h.Decent(h.after(first, 1, timeOfDay(first.In(h.Zone))))
	return []Due{
		{Kind: AskFeel, At: first, Until: second.Add(-apart)},
		{Kind: AskAgain, At: second, Until: second.Add(feelFades)},
	}
}

// ForChannel returns what is due of an event for the club's channel at now:
// its guide, at the time set for it. An organiser's own time is kept to even
// in quiet hours, for a post in a channel wakes nobody.
func ForChannel(club tuning.Club, event tuning.Event, now time.Time) []Due {
	d := Due{Club: club.Key, Kind: PostGuide, Event: event.ID, At: event.GuideAt, Until: event.Starts}
	if event.Cancelled || event.GuideAt.IsZero() || !d.At.Before(d.Until) || !now.Before(d.Until) {
		return nil
	}
	return []Due{d}
}

// ForCoach returns a coach's next weekly digest after now. It returns a
// Refusal when the club's zone is none.
func ForCoach(club tuning.Club, coach string, now time.Time) (Due, error) {
	h, err := HoursOf(club)
	if err != nil {
		return Due{}, err
	}
	d := Due{Club: club.Key, Kind: Digest, Person: coach}
	for days := int(time.Monday - now.In(h.Zone).Weekday()); !d.At.After(now); days += 7 {
		d.At = h.Decent(h.after(now, days, digestAt))
	}
	d.Until = d.At.Add(digestFades)
	return d, nil
}

// Week returns the span that a digest due at a time looks back on.
func (h Hours) Week(at time.Time) (from, to time.Time) {
	return h.after(at, -7, timeOfDay(at.In(h.Zone))), at
}
