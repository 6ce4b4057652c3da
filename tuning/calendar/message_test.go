package calendar_test

import (
	"testing"
	"time"

	"detent/tuning"
	"detent/tuning/calendar"
)

// What a coach put to a student is not sent when it needs no sending any more.
func TestMootWordOfACoach(t *testing.T) {
	now := clock(t, "2027-05-08 20:00")
	change := func(do func(*calendar.Occasion)) calendar.Occasion {
		o := calendar.Occasion{Member: tuning.Member{Reminders: true},
			Word: tuning.CoachWord{Coach: "p2", Holds: true, Suggested: &tuning.Given{Coach: "p2"}}}
		do(&o)
		return o
	}
	for want, do := range map[string]func(*calendar.Occasion){
		"":                                  func(*calendar.Occasion) {},
		"they switched reminders off":       func(o *calendar.Occasion) { o.Member.Reminders = false },
		"they switched messages off":        func(o *calendar.Occasion) { o.Member.Muted = true },
		"what was written is gone":          func(o *calendar.Occasion) { o.Word = tuning.CoachWord{} },
		"the coaching has ended":            func(o *calendar.Occasion) { o.Word.Holds = false },
		"they have read it":                 func(o *calendar.Occasion) { o.Word.Seen = true },
		"they have answered it":             func(o *calendar.Occasion) { o.Word.Suggested.Declined = true },
		"the clicks have moved since":       func(o *calendar.Occasion) { o.Word.Suggested.Stands[tuning.FL][tuning.Bump] = 3 },
		"their car is retired":              func(o *calendar.Occasion) { o.Word.Suggested.Car.Retired = true },
		"their last notes speak of a fault": func(o *calendar.Occasion) { o.Word.Suggested.Notes = "a knock at the rear" },
		"the club has removed the program":  func(o *calendar.Occasion) { o.Left = true },
	} {
		d := calendar.Due{Kind: calendar.Suggestion, Person: "p1", About: 3, At: now, Until: now.Add(time.Hour)}
		if got := d.Moot(change(do), now); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	note := calendar.Due{Kind: calendar.CoachNote, Person: "p1", About: 3, At: now, Until: now.Add(time.Hour)}
	if got := note.Moot(change(func(o *calendar.Occasion) { o.Word.Suggested = nil }), now); got != "" {
		t.Errorf("a note is not sent: %s", got)
	}
}

func TestMootMessageOfAnEvent(t *testing.T) {
	now := clock(t, "2027-05-08 20:00")
	for want, o := range map[string]calendar.Occasion{
		"":                                    {Message: tuning.EventMessage{ID: 3}, Cars: []tuning.Entrant{{Reminded: true}}},
		"what was written is gone":            {Cars: []tuning.Entrant{{Reminded: true}}},
		"they are not entered any more":       {Message: tuning.EventMessage{ID: 3}},
		"they want no reminder of this event": {Message: tuning.EventMessage{ID: 3}, Cars: []tuning.Entrant{{}}},
		"the event is cancelled":              {Message: tuning.EventMessage{ID: 3}, Event: tuning.Event{Cancelled: true}},
		"they switched messages off":          {Message: tuning.EventMessage{ID: 3}, Member: tuning.Member{Muted: true}},
	} {
		o.Member.Reminders = true
		d := calendar.Due{Kind: calendar.EventMessage, Person: "p1", Event: 7, About: 3, At: now, Until: now.Add(time.Hour)}
		if got := d.Moot(o, now); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// What is told of an event waits for the morning where that comes in good time,
// and otherwise does not wait.
func TestWhenEntrantsAreTold(t *testing.T) {
	const berlin = "Europe/Berlin"
	for _, c := range []struct{ starts, ends, now, at string }{
		{"2027-05-08 09:00", "2027-05-08 17:00", "2027-05-04 12:00", "2027-05-04 12:00"},
		{"2027-05-08 09:00", "2027-05-08 17:00", "2027-05-06 23:00", "2027-05-07 08:00"},
		{"2027-05-08 09:00", "2027-05-08 17:00", "2027-05-07 23:00", "2027-05-07 23:00"}, // the quiet hours end an hour before it
		{"2027-05-08 10:00", "2027-05-08 17:00", "2027-05-07 23:00", "2027-05-08 08:00"},
		{"2027-05-08 09:00", "2027-05-08 17:00", "2027-05-08 06:30", "2027-05-08 06:30"},
		{"2027-05-08 09:00", "2027-05-09 17:00", "2027-05-08 22:00", "2027-05-08 22:00"}, // it runs
	} {
		e := tuning.Event{ID: 7, Starts: local(t, berlin, c.starts), Ends: local(t, berlin, c.ends)}
		d, err := calendar.ForEntrants(harrow(berlin), e, 3, local(t, berlin, c.now))
		if err != nil || !d.At.Equal(local(t, berlin, c.at)) || !d.Until.Equal(e.Ends) || d.About != 3 || d.Event != 7 {
			t.Errorf("told at %s of %s: %+v, %v, want it at %s", c.now, c.starts, d, err, c.at)
		}
		d.Person = "p1"
		if ready, err := d.Ready(calendar.Occasion{Club: harrow(berlin), Event: e}, d.At); err != nil || !ready.Equal(d.At) {
			t.Errorf("what is due at %s is ready at %s, %v", d.At, ready, err)
		}
	}
	d, err := calendar.ForStudent(harrow(berlin), calendar.CoachNote, 3, local(t, berlin, "2027-05-08 22:00"))
	if err != nil || !d.At.Equal(local(t, berlin, "2027-05-09 08:00")) {
		t.Errorf("a coach's note of the evening is due at %s, %v", d.At, err)
	}
	for _, err := range []error{second(calendar.ForStudent(harrow("Nowhere"), calendar.CoachNote, 3, time.Time{})),
		second(calendar.ForEntrants(harrow("Nowhere"), tuning.Event{}, 3, time.Time{}))} {
		if tuning.KindOf(err) != tuning.Invalid {
			t.Errorf("a zone that is none: %v", err)
		}
	}
}

func second[T any](_ T, err error) error { return err }

func TestToday(t *testing.T) {
	zone, err := calendar.Zone("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	from, to := calendar.Today(local(t, "Europe/Berlin", "2027-03-28 23:30"), zone) // an hour is lost on that day
	if !from.Equal(local(t, "Europe/Berlin", "2027-03-28 00:00")) || !to.Equal(local(t, "Europe/Berlin", "2027-03-29 00:00")) || to.Sub(from) != 23*time.Hour {
		t.Errorf("the day goes from %s to %s", from, to)
	}
}
