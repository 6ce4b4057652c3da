package store_test

import (
	"context"
	"testing"
	"time"

	"detent/store"
	"detent/tuning"
	"detent/tuning/learn"
)

// atPlace reads what is on record of a car at a place at a time.
func (r record) atPlace(now time.Time, who tuning.Who, car tuning.Car, place string) (found tuning.PlaceRecord, tries []learn.Try) {
	r.Helper()
	must(r.T, r.db.Read(r.Context(), who, now, func(b *store.Book) (err error) {
		found, tries, err = b.AtPlace(r.Context(), car, place)
		return err
	}))
	return found, tries
}

// TestPlaces leaves a wet day at Windy Hill on record, with a remedy that helped,
// and a feel elsewhere.
func TestPlaces(t *testing.T) {
	r := open(t)
	car := r.car(sam, "Blue hatch")
	day := r.event(springDay(3))
	other := springDay(10)
	other.Name, other.Place = "Meadow day", "Long Meadow"
	other = r.event(other)
	must(t, r.enter(day, car))
	must(t, r.enter(other, car))
	if found, _ := r.atPlace(day.Ends, sam, car, "Windy Hill"); len(found.Visits) != 0 {
		t.Errorf("entered and nothing recorded, it was there: %+v", found.Visits)
	}
	var turned tuning.Change
	feel := func(now time.Time, f tuning.Feel) {
		t.Helper()
		f.Car = car.ID
		must(t, r.at(now, sam, func(ctx context.Context, b *store.Book) error { _, err := b.SaveFeel(ctx, f); return err }))
	}
	feel(day.Starts.Add(time.Minute), tuning.Feel{Grip: 5})
	must(t, r.at(day.Starts.Add(time.Hour), sam, func(ctx context.Context, b *store.Book) error {
		c, err := b.Case(ctx, sam.Person, "")
		if err != nil {
			return err
		}
		pushes := tuning.Complaint{What: tuning.Understeer, Weather: tuning.Wet}
		advice, err := tuning.Advise(c.Car, c.Setting, pushes, c.History, tuning.DefaultSizes)
		if err != nil {
			return err
		}
		if advice, err = b.SaveAdvice(ctx, advice, c.Setting); err != nil {
			return err
		}
		turned, err = b.Record(ctx, c.Car, tuning.Change{Reason: tuning.ByRemedy, Complaint: &pushes, Advice: advice.ID, Remedy: 2, Moves: advice.Remedies[1].Moves}) // the first is the wet start
		return err
	}))
	feel(day.Starts.Add(2*time.Hour), tuning.Feel{Grip: 7, Better: tuning.BetterYes})
	feel(day.Starts.Add(3*time.Hour), tuning.Feel{Grip: 8, Conditions: tuning.ItWasDry})
	feel(other.Starts.Add(time.Hour), tuning.Feel{Grip: 9})

	found, tries := r.atPlace(other.Ends, sam, car, " windy HILL ")
	if len(found.Visits) != 1 || found.Visits[0].ID != day.ID || len(found.Feels) != 3 || len(found.Changes) != 3 || len(tries) != 1 || tries[0].Change != turned.ID {
		t.Fatalf("on record are %+v and %+v", found, tries)
	}
	for i, want := range []tuning.Weather{tuning.Wet, tuning.Wet, tuning.Dry} {
		if f := found.Feels[i]; f.Weather != want || f.Event != "Spring day" {
			t.Errorf("the feel of grip %d was in the %q at %q", f.Grip, f.Weather, f.Event)
		}
	}
	last := found.Changes[2]
	if last.ID != turned.ID || last.Event != day.ID || last.Reason != tuning.ByRemedy || len(last.Moves) != len(turned.Moves) {
		t.Errorf("the last change is %+v", last)
	}
	memory, ok := found.Memory()
	if standing := r.theCase(sam); !ok || memory.Today.Setting != standing.Setting || memory.Today.Unrecorded != standing.History.Unrecorded {
		t.Errorf("by the log it stands %+v, by the record %+v", memory.Today, standing.Setting)
	}
	if before, _ := r.atPlace(day.Starts.Add(-time.Minute), sam, car, "Windy Hill"); len(before.Visits) != 0 {
		t.Errorf("before it began it was there: %+v", before.Visits)
	}
	if foreign, _ := r.atPlace(other.Ends, elsewhere, car, "Windy Hill"); len(foreign.Visits)+len(foreign.Changes)+len(foreign.Feels) != 0 {
		t.Errorf("another club is told %+v", foreign)
	}
}
