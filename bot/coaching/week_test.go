package coaching_test

import (
	"strings"
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
	kim.At = bottest.Morning.AddDate(0, 0, 7)
	if r := kim.Does(`/coach week until:"2026-05-15 09:00"`); !strings.Contains(r.Text, "1 change, last: FL bump") {
		t.Errorf("of the week before: %q", r.Text)
	}
	if r := kim.Does(`/coach week until:"2026-05-14 08:00"`); strings.Contains(r.Text, "FL bump") || !strings.Contains(r.Text, "1 change") {
		t.Errorf("before that change: %q", r.Text)
	}
	if n := len(wall.looks); n != 4 || wall.looks[1].What != "the week's changes and feel" {
		t.Errorf("%d looks are kept: %+v", n, wall.looks)
	}
}

// A week has the marks and the words of each feel, on the club's clocks, and
// goes on where a message has no room.
func TestWeekHasMarksAndWords(t *testing.T) {
	wall, kim, robin := newPitwall(t)
	agree(kim, robin)
	wall.HomeClub.Zone = "Asia/Tokyo"
	push := -2
	wall.feels = []tuning.Feel{{Person: "robin", Car: 1, At: bottest.Morning.Add(-16 * time.Hour), Grip: 5, Entry: &push, Notes: "washes out"},
		{Person: "robin", Car: 2, At: bottest.Morning, Grip: 7, Better: tuning.BetterYes}, {Person: "sam", Grip: 1}}
	wall.others = []tuning.Car{{ID: 2, Name: "Grey coupe", Retired: true}}
	r := kim.Does(`/coach week`)
	want := "robin: felt 2 times\n- 16 May, Blue hatch: grip 5, entry pushes wide 2, “washes out”\n- 16 May, Grey coupe: grip 7, better than before"
	if r.Text != want {
		t.Errorf("%q\nwant\n%q", r.Text, want)
	}
	for range 10 {
		wall.feels = append(wall.feels, tuning.Feel{Person: "robin", Car: 1, At: bottest.Morning, Grip: 6, Notes: strings.Repeat("words ", 160)})
	}
	kim.At = bottest.Morning
	r, pages := kim.Does(`/coach week`), 1
	for ; ; pages++ {
		m := r.Message()
		if lines, runes := m.Measure(); lines > 24 || runes > 1200 {
			t.Errorf("page %d has %d lines and %d characters", pages, lines, runes)
		}
		more := m.Actions[len(m.Actions)-1]
		kim.At = kim.At.Add(time.Hour) // the week stays the same
		if more.Label != "More" || pages > 60 {
			break
		}
		if !strings.HasPrefix(more.Ask, `/coach week until:"2026-05-16 18:00" from:`) {
			t.Fatalf("page %d goes on with %s", pages, more.Ask)
		}
		r = kim.Does(more.Line())
	}
	if pages < 8 || pages > 40 {
		t.Errorf("%d pages", pages)
	}
}
