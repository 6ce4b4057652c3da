package store_test

import (
	"context"
	"errors"
	"sync"
	"testing"
	"time"

	"detent/store"
	"detent/tuning"
)

// A server that restarts leaves every idle connection dead. Nobody notices.
func TestIdleConnectionsMayDie(t *testing.T) {
	r := open(t)
	const many = 12
	var all, done sync.WaitGroup
	all.Add(many)
	for range many {
		done.Go(func() {
			r.read(sam, func(ctx context.Context, b *store.Book) error {
				all.Done()
				all.Wait() // until each has a connection of its own
				return nil
			})
		})
	}
	done.Wait()
	r.killAll()
	runs := 0
	if _, err := r.saveOnce(&runs); err != nil || runs != 1 {
		t.Errorf("after %d runs: %v", runs, err)
	}
}

// What ends without a commit leaves nothing open on its connection, however it
// ends.
func TestNothingStaysOpen(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	type end = func(ctx context.Context, giveUp func(), b *store.Book) error
	read := func(ctx context.Context, b *store.Book) error { _, err := b.Case(ctx, sam.Person, ""); return err }
	for name, end := range map[string]end{
		"refused": func(context.Context, func(), *store.Book) error { return tuning.Problemf(tuning.Invalid, "no") },
		"failed": func(ctx context.Context, _ func(), b *store.Book) error {
			_, err := b.SaveCar(ctx, hatch(sam, "Blue hatch"))
			return err
		},
		"given up at the end": func(ctx context.Context, giveUp func(), b *store.Book) error {
			defer giveUp()
			return read(ctx, b)
		},
		"given up half way": func(ctx context.Context, giveUp func(), b *store.Book) error {
			giveUp()
			return read(ctx, b)
		},
	} {
		ctx, giveUp := context.WithCancel(t.Context())
		_, err := r.db.Once(ctx, sam, morning, name, func(b *store.Book) ([]byte, error) { return nil, end(ctx, giveUp, b) })
		if err == nil {
			t.Errorf("%s: there is no error", name)
		}
		giveUp()
	}
	began := time.Now()
	for open := 1; open != 0; time.Sleep(time.Millisecond) { // a connection that was closed is gone a moment later
		if time.Since(began) > 10*time.Second {
			t.Fatalf("%d transactions are still open", open)
		}
		must(t, r.admin.Get(&open, `select count(*) from pg_stat_activity where datname = current_database() and state like 'idle in transaction%'`))
	}
	if n := r.count("cars"); n != 1 {
		t.Errorf("there are %d cars", n)
	}
	must(t, r.db.Read(t.Context(), sam, morning, func(b *store.Book) error {
		_, err := b.Case(t.Context(), sam.Person, "")
		return err
	}))
}

// A function that hides what went wrong does not get half of it kept.
func TestHiddenFailureIsNotKept(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	_, err := r.db.Once(t.Context(), sam, morning, "hide", func(b *store.Book) ([]byte, error) {
		_, first := b.SaveCar(t.Context(), hatch(sam, "Red racer"))
		_, second := b.SaveCar(t.Context(), hatch(sam, "Blue hatch"))
		if first != nil || second == nil {
			t.Errorf("the errors are %v and %v", first, second)
		}
		return []byte("saved both"), nil
	})
	if problem, ok := errors.AsType[*tuning.Problem](err); !ok || problem.Kind != tuning.Internal {
		t.Errorf("the error is %v", err)
	}
	if n := r.count("cars"); n != 1 {
		t.Errorf("there are %d cars", n)
	}
}

// What people are called and how requests are named cannot be taken for SQL.
func TestNamesAreNoSQL(t *testing.T) {
	r := open(t)
	for _, name := range []string{`'); drop table cars; --`, `\'; rollback; --`, `$1 $2 $3`, `''`, "\u202eלילה 🏁", "a\nb", `E'\x41'`} {
		who := tuning.Who{Club: "club " + name, Person: name, Name: name}
		for range 2 {
			reply, err := r.db.Once(t.Context(), who, morning, name, func(b *store.Book) ([]byte, error) {
				m, err := b.Member(t.Context(), name)
				return []byte(m.Person + " of " + name), err
			})
			if err != nil || string(reply) != name+" of "+name {
				t.Errorf("%q is answered %q: %v", name, reply, err)
			}
		}
	}
	if err := r.try(tuning.Who{Club: "harrow-hill", Person: "a\x00b"}, func(context.Context, *store.Book) error { return nil }); err == nil {
		t.Error("a zero byte was kept")
	}
}
