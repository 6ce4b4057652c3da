package store_test

import (
	"context"
	"testing"
	"time"

	"detent/store"
	"detent/tuning"
)

// clubSeason reads a year of Sam's club at a moment.
func (r record) clubSeason(now, from, to time.Time) (s tuning.ClubSeason) {
	r.Helper()
	must(r.T, r.db.Read(r.Context(), sam, now, func(b *store.Book) (err error) {
		s, err = b.ClubSeason(r.Context(), from, to)
		return err
	}))
	return s
}

func TestClubSeasonCountsAndNamesNobody(t *testing.T) {
	r := open(t)
	from, to := year(t)
	r.everything(elsewhere)
	r.everything(sam) // an event the day after, entered; two complaints and feels, two remedies turned
	later := springDay(30)
	later.Name = "June day"
	later = r.event(later)
	day := springDay(1)
	must(t, r.at(day.Starts.Add(time.Hour), sam, func(ctx context.Context, b *store.Book) error {
		_, err := b.SaveFeel(ctx, tuning.Feel{Car: r.theCase(sam).Car.ID, Grip: 7})
		return err
	}))

	s := r.clubSeason(day.Ends, from, to)
	if len(s.Events) != 1 || s.Events[0].Cars != 1 || s.Events[0].Felt != (tuning.Sample{Times: 1, Cars: 1, People: 1}) {
		t.Errorf("the events are %+v", s.Events)
	}
	if len(s.Coming) != 1 || s.Coming[0].ID != later.ID {
		t.Errorf("to come are %+v", s.Coming)
	}
	one := func(times int) tuning.Sample { return tuning.Sample{Times: times, Cars: 1, People: 1} }
	if s.Entered != one(1) || s.Asked != one(2) || s.Applied != one(2) || s.Felt != one(3) {
		t.Errorf("entered %+v, asked %+v, applied %+v, felt %+v", s.Entered, s.Asked, s.Applied, s.Felt)
	}
	if !s.Earlier.IsZero() || !s.Later.IsZero() {
		t.Errorf("the nearest other events are at %v and %v", s.Earlier, s.Later)
	}
	if before := r.clubSeason(later.Ends, from.AddDate(-1, 0, 0), from); len(before.Events)+len(before.Coming) != 0 || before.Felt.Times != 0 || before.Later.IsZero() {
		t.Errorf("the year before has %+v", before)
	}
	if after := r.clubSeason(to, to, to.AddDate(1, 0, 0)); len(after.Events) != 0 || !after.Earlier.Equal(later.Starts) {
		t.Errorf("the year after has %+v", after)
	}
}

// Whoever leaves for good stays in the number of cars and nowhere else.
func TestClubSeasonAfterErasing(t *testing.T) {
	r := open(t)
	from, to := year(t)
	r.everything(sam)
	r.once(sam, func(ctx context.Context, b *store.Book) error { return b.Erase(ctx, sam.Person) })
	s := r.clubSeason(to, from, to)
	if len(s.Events) != 1 || s.Events[0].Cars != 1 || s.Entered != (tuning.Sample{Times: 1}) || s.Felt != (tuning.Sample{}) || s.Asked != (tuning.Sample{}) || s.Applied != (tuning.Sample{}) {
		t.Errorf("what is left is %+v", s)
	}
}
