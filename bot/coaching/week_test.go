package coaching_test

import (
	"testing"
	"time"

	"detent/bot/bottest"
	"detent/tuning"
)

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
