package coaching_test

import (
	"strings"
	"testing"
	"time"

	"detent/bot/bottest"
	"detent/tuning"
)

func TestStudents(t *testing.T) {
	wall, kim, robin := newPitwall(t)
	if r := kim.Does(`/coach students`); r.Title != "No students yet" {
		t.Errorf("%q", r.Title)
	}
	kim.Does(`/coach ask member:robin`)
	if r := kim.Does(`/coach students`); r.Text != "robin: has not accepted yet" || len(r.Actions) != 0 {
		t.Errorf("%q offers %+v", r.Text, r.Actions)
	}
	kim.Refused(tuning.Forbidden, "robin is not your student", `/coach students member:robin`)
	robin.Does(`/coach accept member:kim`)
	robin.Refused(tuning.Forbidden, "coaches", `/coach students`)
	wall.of.History.Changes = []tuning.Change{{At: bottest.Morning, By: "robin", Reason: tuning.ByHand}}
	wall.feels = []tuning.Feel{{At: bottest.Morning, Grip: 7, Notes: "turns in now"}}
	looked := kim.Does(kim.Does(`/coach students`).Actions[0].Line())
	want := []string{"16 May 09:00: confirmed where it stands (by hand)", "16 May 09:00: felt grip 7, “turns in now”"}
	if looked.Title != "robin, Blue hatch" || strings.Join(looked.Notes, "\n") != strings.Join(want, "\n") {
		t.Errorf("%q\n%q", looked.Title, looked.Notes)
	}
	if len(wall.looks) != 1 || wall.looks[0].What != "Blue hatch: clicks, log and feel" {
		t.Errorf("the look is kept as %+v", wall.looks)
	}
}

func TestWeek(t *testing.T) {
	wall, kim, robin := newPitwall(t)
	agree(kim, robin)
	if r := kim.Does(`/coach week`); r.Text != "robin: nothing new" {
		t.Errorf("%q", r.Text)
	}
	ended := bottest.Morning.Add(-time.Hour)
	wall.events = []tuning.Event{{Name: "Spring day", Ends: ended}, {Name: "Off", Ends: ended, Cancelled: true}}
	wall.entrants = []tuning.Entrant{{Person: "robin", Car: wall.of.Car}}
	wall.of.Setting[tuning.FL][tuning.Bump] = 30
	wall.of.History.Changes = []tuning.Change{{At: bottest.Morning.AddDate(0, 0, -2), Felt: tuning.BetterNo,
		Moves: []tuning.Move{{Corner: tuning.FL, Adjuster: tuning.Bump, From: 28, To: 30}}}, {At: bottest.Morning.AddDate(0, 0, -9)}}
	want := "robin: Blue hatch, 1 change, last: FL bump 2 stiffer: 2 → 0 from hard, which made it worse; Blue hatch is at the end of front bump; has not said how it felt at Spring day"
	if r := kim.Does(`/coach week`); r.Text != want {
		t.Errorf("%q\nwant\n%q", r.Text, want)
	}
	if n := len(wall.looks); n != 2 || wall.looks[1].What != "the week's changes and feel" {
		t.Errorf("%d looks are kept: %+v", n, wall.looks)
	}
}
