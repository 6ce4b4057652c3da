package store_test

import (
	"context"
	"testing"
	"time"

	"detent/store"
	"detent/tuning"
	"detent/tuning/calendar"
	"detent/tuning/learn"
)

// year is 2026 in the zone of the club's clocks.
func year(t *testing.T) (from, to time.Time) {
	t.Helper()
	zone, err := calendar.Zone("Pacific/Auckland")
	must(t, err)
	return calendar.Year(2026, zone)
}

// season reads Sam's car's year at a moment.
func (r record) season(now time.Time, who tuning.Who, car tuning.Car, from, to time.Time) (s tuning.CarSeason) {
	r.Helper()
	must(r.T, r.db.Read(r.Context(), who, now, func(b *store.Book) (err error) {
		s, err = b.CarSeason(r.Context(), car, from, to)
		return err
	}))
	return s
}

// turns turns the front rebound of Sam's car as by hand at a moment, and says
// how that felt.
func (r record) turns(at time.Time, clicks, grip int) (change tuning.Change, feel tuning.Feel) {
	r.Helper()
	must(r.T, r.at(at, sam, func(ctx context.Context, b *store.Book) error {
		c, err := b.Case(ctx, sam.Person, "")
		if err != nil {
			return err
		}
		turned := byHand(turn(c, tuning.Rebound, clicks))
		turned.Turned = true
		if change, err = b.Record(ctx, c.Car, turned); err != nil {
			return err
		}
		feel, err = b.SaveFeel(ctx, tuning.Feel{Car: c.Car.ID, Grip: grip, Lap: time.Minute, Conditions: tuning.ItWasDamp, Hot: tuning.Pressures{2e5}, Air: 290})
		return err
	}))
	return change, feel
}

func TestCarSeasonIsTheYearOfTheClub(t *testing.T) {
	r := open(t)
	from, to := year(t)
	car := r.car(sam, "Blue hatch") // fitted at morning, on 2 May
	other := r.car(robin, "Grey coupe")
	last, _ := r.turns(to.Add(-time.Second), 1, 7)
	_, after := r.turns(to, 1, 8)
	must(t, r.at(to, robin, func(ctx context.Context, b *store.Book) error {
		_, err := b.SaveFeel(ctx, tuning.Feel{Car: other.ID, Grip: 9})
		return err
	}))

	s := r.season(to, sam, car, from, to)
	if len(s.Changes) != 3 || s.Turned() != 1 || s.Changes[2].ID != last.ID || len(s.Changes[2].Moves) != 2 || len(s.Before) != 0 {
		t.Fatalf("the year has %+v", s)
	}
	if len(s.Feels) != 1 || s.Feels[0].Grip != 7 || s.Feels[0].Conditions != tuning.ItWasDamp || s.Feels[0].Hot[tuning.FL] != 2e5 || s.Feels[0].Air != 290 {
		t.Errorf("it felt like %+v", s.Feels)
	}
	if !s.Earlier.IsZero() || !s.Later.Equal(to) || !s.Fitted[tuning.Front].Equal(morning) || !s.Fitted[tuning.Rear].Equal(morning) {
		t.Errorf("what is round the year: %v, %v, %v", s.Earlier, s.Later, s.Fitted)
	}
	if lanes := s.Lanes(r.theCase(sam).Car); len(lanes) != 6 || !lanes[2].Turned() {
		t.Errorf("the lanes are %+v", lanes)
	}

	next := r.season(to.AddDate(1, 0, 0), sam, car, to, to.AddDate(1, 0, 0))
	if len(next.Feels) != 1 || next.Feels[0].ID != after.ID || len(next.Changes) != 1 || len(next.Before) != 12 || !next.Earlier.Equal(to.Add(-time.Second)) {
		t.Errorf("the next year has %+v", next)
	}
	for _, m := range next.Before {
		if m.From != -1 || m.Corner.Axle() == tuning.Front && m.Adjuster == tuning.Rebound && m.To != last.Moves[0].To {
			t.Errorf("before it %+v", m)
		}
	}
	if before := r.season(to, sam, car, from.AddDate(-1, 0, 0), from); !before.Empty() || !before.Later.Equal(to.Add(-time.Second)) {
		t.Errorf("the year before has %+v", before)
	}
}

func TestCarSeasonHasItsEventsAndNotes(t *testing.T) {
	r := open(t)
	from, to := year(t)
	car := r.car(sam, "Blue hatch")
	spring, june, off := springDay(1), springDay(40), springDay(60)
	june.Name, off.Name = "June day", "Called off"
	spring, june, off = r.event(spring), r.event(june), r.event(off)
	for _, e := range []tuning.Event{spring, june, off} {
		must(t, r.enter(e, car))
	}
	off.Cancelled = true
	r.event(off)
	var note tuning.CarNote
	must(t, r.at(spring.Starts.Add(time.Hour), sam, func(ctx context.Context, b *store.Book) (err error) {
		note, err = b.SaveCarNote(ctx, tuning.CarNote{Car: car.ID, What: tuning.AboutTyres, Text: "new set"})
		return err
	}))
	s := r.season(june.Starts.Add(-time.Minute), sam, car, from, to)
	if len(s.Events) != 1 || s.Events[0].ID != spring.ID || len(s.Notes) != 1 || s.Notes[0].ID != note.ID || s.Notes[0].Event != spring.ID || s.Notes[0].Text != "new set" {
		t.Errorf("before June day: %+v, %+v", s.Events, s.Notes)
	}
	if s := r.season(to, sam, car, from, to); len(s.Events) != 2 || s.Events[1].ID != june.ID {
		t.Errorf("after the year the events are %+v", s.Events)
	}
	must(t, r.at(to, sam, func(ctx context.Context, b *store.Book) error { return b.Leave(ctx, june, car) }))
	if s := r.season(to, sam, car, from, to); len(s.Events) != 1 {
		t.Errorf("an event that the car left is one of its season")
	}
}

func TestSeasonsSeeOneClubOnly(t *testing.T) {
	r := open(t)
	from, to := year(t)
	r.everything(elsewhere)
	r.everything(sam)
	mine := r.theCase(sam).Car
	r.read(elsewhere, func(ctx context.Context, b *store.Book) error {
		s, err := b.CarSeason(ctx, mine, from, to)
		if !s.Empty() || len(s.Events) != 0 || len(s.Before) != 0 {
			t.Errorf("another club reads %+v", s)
		}
		tries, err2 := b.TriesOf(ctx, mine, from, to)
		if len(tries) != 0 || err2 != nil {
			t.Errorf("another club reads %d tries (%v)", len(tries), err2)
		}
		return err
	})
	var tries, all []learn.Try
	r.read(sam, func(ctx context.Context, b *store.Book) (err error) {
		if tries, err = b.TriesOf(ctx, mine, from, to); err != nil {
			return err
		}
		all, err = b.TriesIn(ctx, from, to)
		return err
	})
	if len(tries) != 1 || len(all) != 1 {
		t.Errorf("%d tries of the car and %d of the club, want one", len(tries), len(all))
	}
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		none, err := b.TriesIn(ctx, from, morning)
		if len(none) != 0 {
			t.Errorf("before the first there are %d tries", len(none))
		}
		return err
	})
}
