package season_test

import (
	"strings"
	"testing"
	"time"

	"detent/tuning"
)

func TestAddEvent(t *testing.T) {
	year, olga, robin := newYear(t)
	e := year.events[0]
	if e.Name != "June day" || e.Place != "Windy Hill" || e.Surface != tuning.Bumpy || e.By != "olga" || !e.Starts.Equal(time.Date(2026, 6, 13, 9, 0, 0, 0, time.UTC)) {
		t.Errorf("kept is %+v", e)
	}
	robin.Refused(tuning.Forbidden, "organisers", `/event add name:x starts:"2026-06-14 09:00" ends:"2026-06-14 17:00"`)
	for line, words := range map[string]string{
		`/event add name:x starts:"2026-06-14 17:00" ends:"2026-06-14 09:00"`:                             "It ends before it starts",
		`/event add name:x starts:"2026-05-01 09:00" ends:"2026-06-14 09:00"`:                             "is in the past",
		`/event add name:x starts:"2026-06-01 09:00" ends:"2026-06-30 09:00"`:                             "longer than two weeks",
		`/event add name:x starts:"2036-06-01 09:00" ends:"2036-06-01 19:00"`:                             "check the year",
		`/event add name:x starts:"2026-06-14 09:00" ends:"2026-06-14 17:00" guide-at:"2026-06-14 10:00"`: "before the event starts",
		`/event add name:x starts:"2026-06-14 09:00" ends:"2026-06-14 17:00" guide-at:"2026-05-10 10:00"`: "post the guide by hand",
	} {
		olga.Refused(tuning.Invalid, words, line)
	}
}

// Of several mistakes in a line the first option's is told, each time.
func TestEventNameIsCheckedFirst(t *testing.T) {
	_, olga, _ := newYear(t)
	for range 20 {
		olga.Refused(tuning.Invalid, "Give it a name", `/event edit name:"June day" rename:"" place:"0123456789012345678901234567890123456789012345678901234567890123456789"`)
	}
}

func TestEditEvent(t *testing.T) {
	year, olga, _ := newYear(t)
	olga.Refused(tuning.Invalid, "Say what to change of June day", `/event edit name:"June day"`)
	was := year.events[0]
	olga.Does(`/event edit name:#1 rename:"Late day" weather:wet limit:1`)
	want := was
	want.Name, want.Weather, want.Limit = "Late day", tuning.Wet, 1
	if year.events[0] != want {
		t.Errorf("it became %+v", year.events[0])
	}
	year.entrants[1] = []tuning.Entrant{{Person: "robin"}, {Person: "sam"}}
	olga.Refused(tuning.Conflict, "2 cars are entered already: the limit cannot be 1", `/event edit limit:1`)
	olga.Does(`/event edit limit:0`)
}

func TestCancelEvent(t *testing.T) {
	year, olga, robin := newYear(t)
	robin.Does(`/event enter`)
	if r := olga.Does(`/event cancel`); r.Title != "June day is cancelled" || !year.events[0].Cancelled || year.due["robin"] != 0 {
		t.Errorf("%q, %v due", r.Title, year.due)
	}
	olga.Refused(tuning.Conflict, "is cancelled", `/event cancel`)
	robin.Refused(tuning.Conflict, "is cancelled", `/event enter`)
}

// Those who are in hear of it once the organiser says why, then or later.
func TestCancellingIsTold(t *testing.T) {
	year, olga, _ := newYear(t)
	olga.Refused(tuning.Limit, "Keep text under 400", `/event cancel text:"`+strings.Repeat("x", 401)+`"`)
	year.in(tuning.Entrant{Person: "robin", Reminded: true}, tuning.Entrant{Person: "sam", Muted: true})
	olga.Does(`/event tell text:"Bring water."`)
	olga.Does(`/event tell text:"And a hat."`)
	if r := olga.Does(`/event cancel`); !strings.HasSuffix(r.Text, "not told yet: /event cancel text:WHY tells them.") || r.Actions[0].Line() != "/event cancel text:? name:#1" || len(year.told) != 2 {
		t.Errorf("without a reason: %q, %+v, told %+v", r.Text, r.Actions, year.told)
	}
	olga.Refused(tuning.Limit, "have had 2 messages today", `/event cancel text:"The track is flooded."`)
	year.told = year.told[:1] // it is cancelled already
	r := olga.Does(`/event cancel text:" The track  is flooded. "`)
	if !strings.HasSuffix(r.Text, "\nMessage to 1 person in June day.\nIt goes out now, with your name.\n1 other wants no messages: tell them yourself.") {
		t.Errorf("%q", r.Text)
	}
	if m := year.told[1]; m.Text != "The track is flooded." || !m.Cancels || m.Sender != "olga" || year.mail[len(year.mail)-1].Person != "robin" {
		t.Errorf("told is %+v by %+v", m, year.mail)
	}

	year, olga, _ = newYear(t)
	year.in(tuning.Entrant{Person: "sam", Muted: true})
	if r := olga.Does(`/event cancel`); !strings.HasSuffix(r.Text, "\nThey take no messages: tell them yourself.") || len(year.told) != 0 {
		t.Errorf("%q, %+v", r.Text, year.told)
	}
}

// Whoever changes an event that people are in can tell them.
func TestAChangeCanBeTold(t *testing.T) {
	year, olga, _ := newYear(t)
	labels := func() (all string) {
		for _, a := range olga.Does(`/event edit surface:rough`).Actions {
			all += a.Label + "; "
		}
		return all
	}
	if got := labels(); got != "Enter my car; " {
		t.Errorf("with nobody in: %s", got)
	}
	year.in(tuning.Entrant{Person: "robin", Reminded: true})
	if got := labels(); got != "Enter my car; Tell those who are in; " {
		t.Errorf("with somebody in: %s", got)
	}
}
