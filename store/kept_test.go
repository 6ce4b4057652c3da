package store_test

import (
	"context"
	"errors"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"detent/store"
	"detent/tuning"
)

func TestKeptSettings(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	other := r.car(robin, "Red hatch")
	c := r.theCase(sam)
	var dry tuning.Kept
	r.once(sam, func(ctx context.Context, b *store.Book) (err error) {
		dry, err = b.SaveKept(ctx, tuning.Kept{Car: c.Car.ID, Name: "Dry fast", Weather: tuning.ItWasDry, Setting: c.Setting, Dampers: c.Car.Dampers})
		return err
	})
	want := tuning.Kept{ID: dry.ID, Car: c.Car.ID, Name: "Dry fast", At: morning, Weather: tuning.ItWasDry, Setting: c.Setting, Dampers: c.Car.Dampers}
	if diff := cmp.Diff(want, dry); diff != "" {
		t.Errorf("kept is %s", diff)
	}
	for _, again := range []string{"Dry fast", "DRY FAST"} {
		err := r.try(sam, func(ctx context.Context, b *store.Book) error {
			_, err := b.SaveKept(ctx, tuning.Kept{Car: c.Car.ID, Name: again, Setting: c.Setting, Dampers: c.Car.Dampers})
			return err
		})
		wantRefusal(t, err, tuning.Taken{What: tuning.KeptThing})
	}
	r.once(robin, func(ctx context.Context, b *store.Book) error { // on another car the name is free
		_, err := b.SaveKept(ctx, tuning.Kept{Car: other.ID, Name: "dry fast", Setting: c.Setting, Dampers: other.Dampers})
		return err
	})
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		byName, err := b.KeptSetting(ctx, c.Car, "dry FAST", 0)
		byNumber, err2 := b.KeptSetting(ctx, c.Car, "", dry.ID)
		if byName.ID != dry.ID || byNumber.ID != dry.ID {
			t.Errorf("found are %d and %d", byName.ID, byNumber.ID)
		}
		_, missing := b.KeptSetting(ctx, c.Car, "Wet", 0)
		wantRefusal(t, missing, tuning.Missing{What: tuning.KeptThing, Name: "Wet"})
		_, gone := b.KeptSetting(ctx, other, "", dry.ID)
		wantRefusal(t, gone, tuning.Gone{What: tuning.KeptThing})
		return errors.Join(err, err2)
	})
	r.once(sam, func(ctx context.Context, b *store.Book) error { return b.ForgetKept(ctx, dry) })
	wantRefusal(t, r.try(sam, func(ctx context.Context, b *store.Book) error { return b.ForgetKept(ctx, dry) }),
		tuning.Gone{What: tuning.KeptThing, Name: "Dry fast"})
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		list, err := b.KeptSettings(ctx, c.Car, 0, 10)
		if len(list) != 0 {
			t.Errorf("forgotten are %+v", list)
		}
		return err
	})
}

// What was felt with clicks is what was felt before anything else was turned,
// and after they were loaded again onto the same dampers.
func TestFeltWithKeptClicks(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	feel := func(grip int) {
		t.Helper()
		c := r.theCase(sam)
		r.once(sam, func(ctx context.Context, b *store.Book) error {
			_, err := b.SaveFeel(ctx, tuning.Feel{Car: c.Car.ID, Grip: grip})
			return err
		})
	}
	keep := func(name string) {
		t.Helper()
		c := r.theCase(sam)
		r.once(sam, func(ctx context.Context, b *store.Book) error {
			_, err := b.SaveKept(ctx, tuning.Kept{Car: c.Car.ID, Name: name, Setting: c.Setting, Dampers: c.Car.Dampers})
			return err
		})
	}
	felt := func(when string, want map[string]int) {
		t.Helper()
		c := r.theCase(sam)
		got := map[string]int{}
		r.read(sam, func(ctx context.Context, b *store.Book) error {
			list, err := b.KeptSettings(ctx, c.Car, 0, 10)
			for _, k := range list {
				if k.Felt != nil {
					got[k.Name] = k.Felt.Grip
				}
			}
			today, err2 := b.FeltToday(ctx, c.Car)
			if today != nil {
				got["today"] = today.Grip
			}
			return errors.Join(err, err2)
		})
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: %s", when, diff)
		}
	}
	load := func(name string) {
		t.Helper()
		c := r.theCase(sam)
		r.once(sam, func(ctx context.Context, b *store.Book) error {
			k, err := b.KeptSetting(ctx, c.Car, name, 0)
			if err != nil {
				return err
			}
			want, _ := tuning.Carry(k.Setting, k.Dampers, c.Car, c.Setting)
			remedy := tuning.Remedy{Kind: tuning.LoadKept, Of: k.ID, Moves: c.Setting.Across(want, c.Car)}
			advice, err := b.SaveAdvice(ctx, tuning.Advice{Car: c.Car.ID, Remedies: []tuning.Remedy{remedy}}, c.Setting)
			if err != nil {
				return err
			}
			_, err = b.Record(ctx, c.Car, tuning.Change{Reason: remedy.Reason(), Advice: advice.ID, Remedy: 1, Moves: remedy.Moves})
			return err
		})
	}
	move := func(clicks int, turned bool) {
		t.Helper()
		c := r.theCase(sam)
		r.once(sam, func(ctx context.Context, b *store.Book) error {
			change := byHand(turn(c, tuning.Rebound, clicks))
			change.Turned = turned
			_, err := b.Record(ctx, c.Car, change)
			return err
		})
	}
	keep("start")
	felt("before anything was felt", map[string]int{})
	feel(5)
	felt("at the start", map[string]int{"start": 5, "today": 5})
	move(2, true)
	felt("after a turn", map[string]int{"start": 5})
	feel(7)
	keep("stiff")
	move(-1, false) // where it really stood
	felt("felt after a turn", map[string]int{"start": 5, "stiff": 7, "today": 7})
	feel(8)
	load("start")
	felt("loaded", map[string]int{"start": 5, "stiff": 8})
	feel(4)
	felt("felt after loading", map[string]int{"start": 4, "stiff": 8, "today": 4})
	c := r.theCase(sam)
	_, err := r.db.Once(r.Context(), sam, morning.Add(time.Hour), "refit", func(b *store.Book) ([]byte, error) {
		return nil, fit(r.Context(), b, &c.Car, damper())
	})
	must(t, err)
	felt("on other dampers", map[string]int{"start": 4, "stiff": 8})
	load("start")
	feel(2)
	felt("felt on other dampers", map[string]int{"start": 4, "stiff": 8, "today": 2})
}
