package calendar_test

import (
	"testing"
	"time"

	"detent/tuning"
	"detent/tuning/calendar"
)

func TestMoot(t *testing.T) {
	now := clock(t, "2027-05-08 20:00")
	in := func(wanted, answered bool) tuning.Entrant {
		return tuning.Entrant{Reminded: wanted, Answered: answered}
	}
	retired := in(true, false)
	retired.Car.Retired = true
	wants := tuning.Member{Reminders: true}
	for _, c := range []struct {
		name string
		kind calendar.Kind
		o    calendar.Occasion
		moot string
	}{
		{"asked", calendar.AskFeel, calendar.Occasion{Member: wants, Cars: []tuning.Entrant{in(true, false)}}, ""},
		{"one of two cars answered", calendar.AskAgain, calendar.Occasion{Member: wants, Cars: []tuning.Entrant{in(true, true), in(true, false)}}, ""},
		{"answered", calendar.AskAgain, calendar.Occasion{Member: wants, Cars: []tuning.Entrant{in(true, true), in(false, false)}}, "they have answered"},
		{"answered in the morning", calendar.CheckBefore, calendar.Occasion{Member: wants, Cars: []tuning.Entrant{in(true, true)}}, ""},
		{"refused", calendar.CheckBefore, calendar.Occasion{Member: wants, Cars: []tuning.Entrant{in(false, false)}}, "they want no reminder of this event"},
		{"retired", calendar.AskFeel, calendar.Occasion{Member: wants, Cars: []tuning.Entrant{retired}}, "their car is retired"},
		{"the other retired", calendar.AskFeel, calendar.Occasion{Member: wants, Cars: []tuning.Entrant{retired, in(true, false)}}, ""},
		{"one answered, the other retired", calendar.AskAgain, calendar.Occasion{Member: wants, Cars: []tuning.Entrant{in(true, true), retired}}, "they have answered"},
		{"left", calendar.CheckBefore, calendar.Occasion{Member: wants}, "they are not entered any more"},
		{"off", calendar.AskFeel, calendar.Occasion{Cars: []tuning.Entrant{in(true, false)}}, "they switched reminders off"},
		{"cancelled", calendar.AskFeel, calendar.Occasion{Member: wants, Event: tuning.Event{Cancelled: true}, Cars: []tuning.Entrant{in(true, false)}}, "the event is cancelled"},
		{"removed", calendar.PostGuide, calendar.Occasion{Left: true}, "the club has removed the program"},
		{"digest", calendar.Digest, calendar.Occasion{Member: wants}, ""},
		{"digest switched off", calendar.Digest, calendar.Occasion{}, "they switched reminders off"},
		{"guide", calendar.PostGuide, calendar.Occasion{}, ""},
	} {
		d := calendar.Due{Kind: c.kind, Person: "p1", Event: 7, At: now, Until: now.Add(time.Hour)}
		switch c.kind {
		case calendar.Digest:
			d.Event = 0
		case calendar.PostGuide:
			d.Person = ""
		}
		if got := d.Moot(c.o, now); got != c.moot {
			t.Errorf("%s: %q, want %q", c.name, got, c.moot)
		}
		if got := d.Moot(c.o, d.Until); got != "too late to be of use" {
			t.Errorf("%s, too late: %q", c.name, got)
		}
	}
}

func TestReady(t *testing.T) {
	const berlin = "Europe/Berlin"
	for _, c := range []struct{ person, at, now, ready string }{
		{"p1", "2027-05-08 20:00", "2027-05-08 20:05", "2027-05-08 20:05"},
		{"p1", "2027-05-08 20:00", "2027-05-08 19:00", "2027-05-08 20:00"},
		{"p1", "2027-05-08 20:00", "2027-05-08 23:00", "2027-05-09 08:00"},
		{"", "2027-05-08 20:00", "2027-05-08 23:00", "2027-05-08 23:00"}, // a channel never sleeps
	} {
		d := calendar.Due{Person: c.person, At: local(t, berlin, c.at)}
		got, err := d.Ready(calendar.Occasion{Club: harrow(berlin)}, local(t, berlin, c.now))
		if err != nil || !got.Equal(local(t, berlin, c.ready)) {
			t.Errorf("due at %s for %q, at %s: ready at %s (%v), not %s", c.at, c.person, c.now, got, err, c.ready)
		}
	}
	if _, err := (calendar.Due{Person: "p1"}).Ready(calendar.Occasion{Club: harrow("Nowhere")}, time.Time{}); tuning.KindOf(err) != tuning.Invalid {
		t.Errorf("a zone that is none: %v", err)
	}
}
