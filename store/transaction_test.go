package store_test

import (
	"context"
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
		"refused": func(context.Context, func(), *store.Book) error { return tuning.NoName },
		"failed": func(ctx context.Context, _ func(), b *store.Book) error {
			_, err := b.SaveCar(ctx, hatch(sam, "Blue hatch"))
			return err
		},
		"failed at the commit": func(ctx context.Context, _ func(), b *store.Book) error {
			b.SaveCar(ctx, hatch(sam, "Blue hatch"))
			return nil
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
		began := time.Now()
		for open := 1; open != 0; time.Sleep(time.Millisecond) { // a connection that was closed is gone a moment later
			if time.Since(began) > 10*time.Second {
				t.Fatalf("%s: %d transactions are still open", name, open)
			}
			must(t, r.admin.Get(&open, `select count(*) from pg_stat_activity where datname = current_database() and state like 'idle in transaction%'`))
		}
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
	for what, first := range map[string]func(b *store.Book) error{
		"another car": func(b *store.Book) error { _, err := b.SaveCar(t.Context(), hatch(sam, "Red racer")); return err },
		"an erasure":  func(b *store.Book) error { return b.Erase(t.Context(), sam.Person) }, // whose reply is not kept either
	} {
		_, err := r.db.Once(t.Context(), sam, morning, what, func(b *store.Book) ([]byte, error) {
			must(t, first(b))
			if _, err := b.SaveCar(t.Context(), tuning.Car{}); err == nil {
				t.Error("a car without a name was saved")
			}
			return []byte("all is done"), nil
		})
		if tuning.KindOf(err) != tuning.Internal {
			t.Errorf("%s: the error is %v", what, err)
		}
		if n := r.count("cars"); n != 1 {
			t.Errorf("%s: there are %d cars", what, n)
		}
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
	err := r.try(tuning.Who{Club: "harrow-hill", Person: "a\x00b"}, func(context.Context, *store.Book) error { return nil })
	wantRefusal(t, err, tuning.UnkeepableText)
}

// Values are read the same on a server that reads backslashes in the old way.
func TestOldWayOfBackslashes(t *testing.T) {
	r := open(t)
	r.admin.MustExec(`do $$ begin execute format('alter database %I set standard_conforming_strings = off', current_database()); end $$`)
	r.db = openAt(t, r.url)
	who := tuning.Who{Club: `a\b'c`, Person: `d\x41'e`, Name: "Sam"}
	for range 2 {
		reply, err := r.db.Once(t.Context(), who, morning, `f\g`, func(b *store.Book) ([]byte, error) {
			m, err := b.Member(t.Context(), who.Person)
			return []byte("done, \\x " + m.Person), err
		})
		if err != nil || string(reply) != "done, \\x "+who.Person {
			t.Errorf("answered %q: %v", reply, err)
		}
	}
}
