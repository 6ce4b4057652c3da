package store_test

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/jmoiron/sqlx"
	_ "github.com/lib/pq"

	"detent/store"
	"detent/store/storetest"
	"detent/tuning"
	"detent/tuning/tuningtest"
)

func TestMain(m *testing.M) {
	defer storetest.Leave()
	m.Run()
}

// The people of the tests, in one club.
var (
	sam   = tuning.Who{Club: "harrow-hill", Person: "person-sam", Name: "Sam"}
	robin = tuning.Who{Club: "harrow-hill", Person: "person-robin", Name: "Robin"}
)

var morning = time.Date(2026, 5, 2, 9, 30, 0, 0, time.UTC)

// record is a new database with what the tests ask of it.
type record struct {
	*testing.T
	url   string
	db    *store.DB
	admin *sqlx.DB // as the database's superuser
}

func open(t *testing.T) record {
	t.Helper()
	url := storetest.URL(t)
	return record{t, url, openAt(t, url), connect(t, url)}
}

func openAt(t *testing.T, url string) *store.DB {
	t.Helper()
	db, err := store.Rehearse(t.Context(), url)
	must(t, err)
	t.Cleanup(func() { db.Close() })
	return db
}

func connect(t testing.TB, url string) *sqlx.DB {
	t.Helper()
	db, err := sqlx.Open("postgres", url)
	must(t, err)
	t.Cleanup(func() { db.Close() })
	return db
}

var requests atomic.Int64

// once runs fn under a new request id and wants it to succeed.
func (r record) once(who tuning.Who, fn func(ctx context.Context, b *store.Book) error) {
	r.Helper()
	must(r.T, r.try(who, fn))
}

// try runs fn under a new request id.
func (r record) try(who tuning.Who, fn func(ctx context.Context, b *store.Book) error) error {
	id := fmt.Sprintf("request-%d", requests.Add(1))
	_, err := r.db.Once(r.Context(), who, morning, id, func(b *store.Book) ([]byte, error) {
		return []byte("done"), fn(r.Context(), b)
	})
	return err
}

func (r record) read(who tuning.Who, fn func(ctx context.Context, b *store.Book) error) {
	r.Helper()
	must(r.T, r.db.Read(r.Context(), who, morning, func(b *store.Book) error { return fn(r.Context(), b) }))
}

// car gives someone a car with three-way dampers, counted from hard, standing
// at the start.
func (r record) car(who tuning.Who, name string) (car tuning.Car) {
	r.Helper()
	r.once(who, func(ctx context.Context, b *store.Book) (err error) {
		if car, err = b.SaveCar(ctx, hatch(who, name)); err != nil {
			return err
		}
		return fit(ctx, b, &car, damper())
	})
	return car
}

func hatch(who tuning.Who, name string) tuning.Car {
	return tuning.Car{Owner: who.Person, Name: name, Drive: tuning.FrontDrive, Engine: tuning.FrontEngine}
}

func damper() tuning.Damper {
	return tuning.Damper{Ways: 3, Count: tuning.FromHard,
		Range: [tuning.Adjusters]int{tuning.Rebound: 20, tuning.LowBump: 18, tuning.HighBump: 12}}
}

// fit fits the same dampers front and rear, at the start.
func fit(ctx context.Context, b *store.Book, car *tuning.Car, d tuning.Damper) error {
	car.Dampers = [tuning.Axles]tuning.Damper{d, d}
	start, err := tuning.Baseline(*car, tuning.Dry, tuning.DefaultSizes)
	if err != nil {
		return err
	}
	for axle := range tuning.Axle(tuning.Axles) {
		var moves []tuning.Move
		for _, m := range (tuning.Setting{}).Across(start, *car) {
			if m.Corner.Axle() == axle {
				moves = append(moves, tuning.Move{Corner: m.Corner, Adjuster: m.Adjuster, From: -1, To: m.To})
			}
		}
		if err := b.FitDampers(ctx, *car, axle, moves); err != nil {
			return err
		}
	}
	return nil
}

// turn turns one adjuster of both corners of the front by so many clicks.
func turn(c tuning.Case, a tuning.Adjuster, clicks int) (moves []tuning.Move) {
	for _, corner := range tuning.Front.Corners() {
		from := c.Setting[corner][a]
		moves = append(moves, tuning.Move{Corner: corner, Adjuster: a, From: from, To: from + clicks})
	}
	return moves
}

func byHand(moves []tuning.Move) tuning.Change {
	return tuning.Change{Reason: tuning.ByHand, Moves: moves}
}

// theCase reads a person's only car.
func (r record) theCase(who tuning.Who) (c tuning.Case) {
	r.Helper()
	r.read(who, func(ctx context.Context, b *store.Book) (err error) {
		c, err = b.Case(ctx, who.Person, "")
		return err
	})
	return c
}

// must ends the test at an error.
var must = tuningtest.Must

// wantRefusal wants an error that is a certain fact.
func wantRefusal(t *testing.T, err error, want tuning.Refusal) {
	t.Helper()
	if got, _ := errors.AsType[tuning.Refusal](err); !reflect.DeepEqual(got, want) {
		t.Errorf("the refusal is %#v (%v), want %#v", got, err, want)
	}
}

// wantOvertaken wants the refusal of what came after a change, made a moment ago.
func wantOvertaken(t *testing.T, err error, by string, own bool, moves []tuning.Move) {
	t.Helper()
	o, ok := errors.AsType[tuning.Overtaken](err)
	if !ok || o.Logged.ByName != by || o.Own != own || o.Ago != 0 || o.Car.Name != "Blue hatch" || !o.Car.Dampers[tuning.Front].Fitted() {
		t.Errorf("it was overtaken by %+v (%v), want %s", o, err, by)
	}
	same(t, o.Logged.Change.Moves, moves)
}

func same(t *testing.T, got, want any) {
	t.Helper()
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("want -, got +:\n%s", diff)
	}
}
