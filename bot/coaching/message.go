package coaching

import (
	"context"

	"detent/tuning"
	"detent/tuning/calendar"
)

// mostMessages is how many messages from coaches a student gets in a day of the
// club. What comes beyond waits to be read.
const mostMessages = 6

// sendWord puts a note or a suggestion on its way to the student as a direct
// message, and tells whether it did.
func (c call) sendWord(ctx context.Context, student string, kind calendar.Kind, about int64) (bool, error) {
	due, err := calendar.ForStudent(c.Club, kind, about, c.Now())
	if err != nil {
		return false, err
	}
	from, to := calendar.Today(due.At, c.Zone())
	had, err := c.Book.CoachMessages(ctx, student, from, to)
	if err != nil || had >= mostMessages {
		return false, err
	}
	return true, c.Book.Deliver(ctx, due, student)
}

// sayReach says how what a coach wrote reaches students, of whom some have had
// enough messages.
func (c call) sayReach(students, enough []tuning.Member) string {
	if len(students) == len(enough) {
		return "They have had enough messages for a day, so it waits under /coach notes."
	}
	when := ""
	if h, err := calendar.HoursOf(c.Club); err == nil && h.Quiet(c.Now()) {
		when = " after the quiet hours"
	}
	said := "They get it as a message" + when + ", unless they switched those off, and find it under /coach notes."
	if len(enough) > 0 {
		said += " Enough messages for a day have gone to " + namesOf(enough) + ": it waits there."
	}
	return said
}
