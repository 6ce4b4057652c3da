package season_test

import (
	"fmt"
	"strings"
	"testing"

	"detent/bot"
	"detent/tuning"
)

func TestListEvents(t *testing.T) {
	year, olga, robin := newYear(t)
	olga.Does(`/event cancel`)
	for day := 1; day <= 16; day++ {
		olga.Does(fmt.Sprintf(`/event add name:"Day %d" starts:"2026-07-%02d 09:00" ends:"2026-07-%02d 17:00"`, day, day, day))
	}
	r := robin.Does(`/event list`)
	lines := strings.Split(r.Text, "\n")
	if r.Title != "17 events to come" || len(lines) != 17 || lines[0] != "June day: Sat 13 Jun 2026, 09:00, Windy Hill, cancelled" {
		t.Errorf("%q\n%s", r.Title, r.Text)
	}
	if show := button(t, r, "Show the next"); show != "/event show name:#2" {
		t.Errorf("the next is shown by %s", show)
	}
	for day := 1; day <= 16; day++ { // long names take two lines of a phone each
		year.events[day].Place = strings.Repeat("W", 40)
	}
	first := robin.Does(`/event list`).Message()
	rest := robin.Does(button(t, bot.Reply{Actions: first.Actions}, "More")).Message()
	if all := first.Text + "\n" + rest.Text; strings.Count(all, "\n") != 16 || rest.Text == "" || !strings.HasSuffix(first.Actions[len(first.Actions)-1].Ask, "/event list from:11") {
		t.Errorf("in two parts it is\n%s\n%+v", all, first.Actions)
	}
	year.events = nil
	if r := robin.Does(`/event list`); r.Title != "No event is planned" {
		t.Errorf("%q", r.Title)
	}
}

func TestShowEvent(t *testing.T) {
	year, _, robin := newYear(t)
	robin.Does(button(t, robin.Does(`/event show`), "Enter my car"))
	if r := robin.Does(`/event show name:"June day"`); !strings.HasSuffix(r.Text, "1 car is in. In with Grey coupe.") {
		t.Errorf("%q", r.Text)
	}
	year.entrants[1] = []tuning.Entrant{{Person: "sam"}}
	robin.At = year.events[0].Ends
	if r := robin.Does(`/event show`); r.Title != "June day is over" || len(r.Actions) != 0 {
		t.Errorf("%q offers %+v", r.Title, r.Actions)
	}
}
