package season_test

import (
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/tuning"
)

func TestCopyEvent(t *testing.T) {
	year, olga, robin := newYear(t)
	olga.Does(`/event edit name:"June day" weather:either limit:30 guide-at:"2026-06-12 09:00"`)
	robin.Does(`/event enter`)
	r := olga.Does(`/event copy name:"June day" starts:"2026-07-11 10:00"`)
	was, got := year.events[0], year.events[1]
	want := tuning.Event{ID: 2, Name: "June day 11 Jul", Starts: time.Date(2026, 7, 11, 10, 0, 0, 0, time.UTC), Ends: time.Date(2026, 7, 11, 18, 0, 0, 0, time.UTC),
		Place: was.Place, Surface: was.Surface, Weather: was.Weather, Limit: was.Limit, By: "olga"}
	if got != want || len(year.entrants[2]) != 0 {
		t.Errorf("planned is %+v, want %+v; %d are in", got, want, len(year.entrants[2]))
	}
	said := strings.Join(r.Notes, " ")
	if r.Title != "June day 11 Jul is planned" || !strings.Contains(said, "June day is planned already") || !strings.Contains(said, "guide does not come by itself") {
		t.Errorf("%q, %q", r.Title, said)
	}
	// A copy of the copy has one day in its name.
	olga.Does(`/event copy name:"June day 11 Jul" starts:"2026-08-08 10:00"`)
	if name := year.events[2].Name; name != "June day 8 Aug" {
		t.Errorf("the copy of a copy is called %q", name)
	}
	olga.Does(`/event copy name:#1 starts:"2026-09-05 10:00" as:"Late day"`)
	if name := year.events[3].Name; name != "Late day" {
		t.Errorf("it is called %q", name)
	}
	// Once it is over, its name is free.
	olga.At = was.Ends.AddDate(1, 0, 0)
	if r := olga.Does(`/event copy name:"June day" starts:"2027-07-03 10:00"`); r.Title != "June day is planned" {
		t.Errorf("a year later it is %q, %q", r.Title, r.Notes)
	}
}

// A long name is cut so that the day has room behind it.
func TestCopyOfALongName(t *testing.T) {
	year, olga, _ := newYear(t)
	olga.Does(`/event edit name:"June day" rename:` + strings.Repeat("é", tuning.MaxName))
	olga.Does(`/event copy name:#1 starts:"2026-07-11 10:00"`)
	if want := strings.Repeat("é", tuning.MaxName-len(" 11 Jul")) + " 11 Jul"; year.events[1].Name != want {
		t.Errorf("%q, want %q", year.events[1].Name, want)
	}
}

func TestCopyRefuses(t *testing.T) {
	_, olga, robin := newYear(t)
	robin.Refused(tuning.Forbidden, "organisers", `/event copy name:"June day" starts:"2026-07-11 10:00"`)
	olga.Refused(tuning.NotFound, "There is no event called", `/event copy name:July starts:"2026-07-11 10:00"`)
	olga.Refused(tuning.Invalid, "is in the past: give a time to come", `/event copy name:"June day" starts:"2026-05-01 10:00"`)
	olga.Refused(tuning.Invalid, "Add starts:", `/event copy name:"June day"`)
	olga.Refused(tuning.Invalid, "Give it a name", `/event copy name:"June day" starts:"2026-07-11 10:00" as:" "`)
}

// After an event the summary leads to the next.
func TestPlanItAgain(t *testing.T) {
	year, olga, _ := newYear(t)
	olga.At = year.events[0].Ends
	line, err := bot.ParseLine(button(t, olga.Does(`/event summary`), "Plan it again"))
	if err != nil {
		t.Fatal(err)
	}
	form, ok := bot.NewCatalogue(olga.Commands).FormFor(line)
	if !ok || len(form.Fields) != 2 || form.Fields[0].Name != "starts" {
		t.Errorf("the button opens %+v", form)
	}
}
