package season_test

import (
	"strings"
	"testing"
	"time"

	"detent/tuning"
	"detent/tuning/learn"
)

// atTheHill gives the coupe a record at Windy Hill: best in the dry with the rear
// rebound at 12 from hard, which stands at 10 today, and a day in the wet.
func atTheHill(year *clubYear) {
	car := year.cars[0]
	day := time.Date(2026, 4, 18, 9, 0, 0, 0, time.UTC)
	put := func(id int64, days int, reason tuning.Reason, from, to int, a tuning.Adjuster, corners ...tuning.Corner) tuning.Change {
		c := tuning.Change{ID: id, At: day.AddDate(0, 0, days), Reason: reason}
		for _, corner := range corners {
			c.Moves = append(c.Moves, tuning.Move{Corner: corner, Adjuster: a, From: from, To: to})
		}
		return c
	}
	start := put(1, -1, tuning.ByBaseline, -1, 6, tuning.Rebound, tuning.FL, tuning.FR, tuning.RL, tuning.RR)
	start.Moves = append(start.Moves, put(1, -1, tuning.ByBaseline, -1, 6, tuning.Bump, tuning.FL, tuning.FR, tuning.RL, tuning.RR).Moves...)
	zero := 0
	year.place = tuning.PlaceRecord{Car: car,
		Visits: []tuning.Event{{ID: 8, Name: "April day", Place: "windy hill", Starts: day, Ends: day.Add(8 * time.Hour)},
			{ID: 9, Name: "May day", Place: "Windy Hill", Starts: day.AddDate(0, 0, 14), Ends: day.AddDate(0, 0, 14).Add(8 * time.Hour)}},
		Changes: []tuning.Change{start, put(2, 0, tuning.ByRemedy, 6, 4, tuning.Rebound, tuning.RL, tuning.RR), put(3, 14, tuning.ByRemedy, 4, 6, tuning.Rebound, tuning.RL, tuning.RR)},
		Feels: []tuning.FeltThere{
			{Feel: tuning.Feel{At: day.Add(time.Hour), Grip: 8, Change: 2, Entry: &zero, Lap: 102600 * time.Millisecond}, Weather: tuning.Dry, Event: "April day"},
			{Feel: tuning.Feel{At: day.AddDate(0, 0, 14).Add(time.Hour), Grip: 5, Change: 3}, Weather: tuning.Wet, Event: "May day"}}}
	year.tries = []learn.Try{{Car: car.ID, Owner: "robin", Change: 2, At: day.Add(time.Hour), Fraction: 1,
		Key:     learn.Key{Row: tuning.RowKey{What: tuning.Oversteer}, Part: tuning.RearPart, Job: tuning.AnyRebound, Turn: tuning.Softer},
		Reading: learn.Reading{Moved: 0.9, Variance: 0.8, Helped: true}}}
}

// Entering at a place where the car was before says what worked there, within
// the bounds of a phone, and leads to all of it.
func TestEnteringAtAKnownPlace(t *testing.T) {
	year, olga, robin := newYear(t)
	if in := robin.Does(`/event enter`); strings.Contains(in.Text, "Windy Hill:") || len(in.Actions) != 3 {
		t.Errorf("of a car that never was there it says\n%s\n%+v", in.Text, in.Actions)
	}
	robin.Does(`/event leave`)
	atTheHill(year)
	in := robin.Does(`/event enter`)
	m := in.Message()
	for _, words := range []string{
		"Windy Hill, dry: best grip 8 (18 Apr 2026), with rear rebound 12 from hard (10 today).",
		"Windy Hill, wet: best grip 5 (2 May 2026), with the clicks as they stand today.",
		"Helped there: rear rebound softer for oversteer, 1 of 1 time.",
	} {
		if !strings.Contains(m.Text, words) {
			t.Errorf("entering lacks %q:\n%s", words, m.Text)
		}
	}
	if lines, runes := m.Measure(); lines > 20 || runes > 900 {
		t.Errorf("%d lines and %d characters:\n%s", lines, runes, m.Words())
	}
	olga.Does(`/event edit weather:wet`)
	robin.Does(`/event leave`)
	if in := robin.Does(`/event enter`); strings.Contains(in.Text, ", dry:") || !strings.Contains(in.Text, ", wet:") {
		t.Errorf("on a wet day it says\n%s", in.Text)
	}
	whole := robin.Does(button(t, in, "What worked here"))
	for _, words := range []string{
		"Best in the dry: grip 8, entry neutral, lap 1:42.600 (April day, 18 Apr 2026).",
		"Rear, from hard: bump 10; rebound 12 (10 today).",
		"To go back there: rear rebound 2 softer, both sides: 10 → 12 from hard.",
		"Left there last (May day, 2 May 2026) as at the best in the wet.",
		"What helped there:\nRear rebound softer for oversteer, 1 of 1 time.",
	} {
		if !strings.Contains(whole.Text, words) {
			t.Errorf("the place lacks %q:\n%s", words, whole.Text)
		}
	}
	if !whole.Private || whole.Title != "Grey coupe at Windy Hill" {
		t.Errorf("private %t, %q", whole.Private, whole.Title)
	}
	olga.Does(`/event edit weather:dry`)
	if dry := robin.Does(`/event place`); button(t, dry, "Rear rebound to 12") != "/clicks set at:rear adjuster:rebound to:12 turned:yes car:#1" || len(dry.Cautions) == 0 || !dry.View.Care.Turns {
		t.Errorf("on a dry day: %+v", dry)
	}
}

// Another car's memory is not told of this one.
func TestPlaceRefuses(t *testing.T) {
	year, olga, robin := newYear(t)
	atTheHill(year)
	robin.Refused(tuning.NotFound, "Nothing is on record of New van at Windy Hill yet", `/event place car:"New van"`)
	robin.Refused(tuning.NotFound, "There is no event called", `/event place name:July`)
	olga.Does(`/event add name:"Secret day" starts:"2026-07-13 09:00" ends:"2026-07-13 17:00"`)
	robin.Refused(tuning.Invalid, "Nobody has said where Secret day is", `/event place name:"Secret day"`)
}

// The car that is entered is meant when none is named.
func TestPlaceIsOfTheCarEntered(t *testing.T) {
	year, _, robin := newYear(t)
	atTheHill(year)
	robin.Does(`/event enter car:"New van"`)
	robin.Refused(tuning.NotFound, "New van", `/event place`)
	robin.Does(`/event place car:"Grey coupe"`)
}

// However long the names are, an entry and all that its place remembers keep
// their bounds.
func TestLongNamesAtAKnownPlace(t *testing.T) {
	year, olga, robin := newYear(t)
	year.Asker.Reminders = false
	long := strings.Repeat("W", tuning.MaxName)
	olga.Does(`/event edit name:"June day" rename:` + long + ` place:` + long + ` limit:30 weather:either guide-at:"2026-06-12 09:00"`)
	year.cars[0].Name = long
	atTheHill(year)
	for i := range year.place.Visits {
		year.place.Visits[i].Place, year.place.Visits[i].Name = long, long
	}
	for i := range year.place.Feels {
		year.place.Feels[i].Event = long
	}
	in := robin.Does(`/event enter remind:yes`)
	if lines, runes := in.Message().Measure(); lines > 20 || runes > 900 || strings.Contains(in.Message().Text, "…") {
		t.Errorf("%d lines and %d characters:\n%s", lines, runes, in.Message().Words())
	}
	whole := robin.Does(button(t, in, "What worked here"))
	if lines, runes := whole.Message().Measure(); lines > 26 || runes > 1300 {
		t.Errorf("%d lines and %d characters:\n%s", lines, runes, whole.Message().Words())
	}
}
