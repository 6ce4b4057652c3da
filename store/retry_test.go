package store

import (
	"context"
	"errors"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/lib/pq"
	"github.com/lib/pq/pqerror"

	"detent/tuning"
)

var (
	errCollided = &pq.Error{Code: pqerror.TRSerializationFailure}
	errLost     = &pq.Error{Code: pqerror.AdminShutdown}
)

// rehearsed is a retrier whose clock goes on by each pause in full.
func rehearsed() (r *retrier, elapsed func() time.Duration) {
	var began, now time.Time
	return &retrier{
		now:   func() time.Time { return now },
		pause: func(_ context.Context, most time.Duration) error { now = now.Add(most); return nil },
	}, func() time.Duration { return now.Sub(began) }
}

// What is refused until the end is said to be busy, and never to be our fault;
// a lost connection is given up sooner.
func TestRetryGivesUpInTime(t *testing.T) {
	for _, c := range []struct {
		name string
		err  error
		want tuning.Refusal
		last time.Duration
	}{
		{"collided", errCollided, tuning.TooManyAtOnce, collidingFor},
		{"lost", errLost, tuning.Unreachable, losingFor},
	} {
		r, elapsed := rehearsed()
		tries := 0
		err := r.retry(t.Context(), "club", func() error { tries++; return c.err })
		got, _ := errors.AsType[tuning.Refusal](err)
		if got != c.want || !errors.Is(err, c.err) {
			t.Errorf("%s: the error is %v", c.name, err)
		}
		if d := elapsed(); d < c.last || d > c.last+longest || tries < 5 {
			t.Errorf("%s: it was tried %d times over %v, want about %v", c.name, tries, d, c.last)
		}
	}
}

func TestRetryOnlyWhatMayHelp(t *testing.T) {
	own := tuning.NoName
	for _, c := range []struct {
		err   error
		tries int
	}{
		{nil, 1}, {own, 1}, {&pq.Error{Code: pqerror.CheckViolation}, 1},
		{&pq.Error{Code: pqerror.UniqueViolation, Constraint: "cars_name"}, 1},
		{&pq.Error{Code: pqerror.UniqueViolation, Constraint: "requests_pkey"}, 2},
		{errCollided, 2}, {errLost, 2}, {&pq.Error{Code: pqerror.TRDeadlockDetected}, 2},
	} {
		r, _ := rehearsed()
		tries := 0
		err := r.retry(t.Context(), "club", func() error {
			if tries++; tries == 2 {
				return nil
			}
			return c.err
		})
		if tries != c.tries || (err == nil) != (c.err == nil || c.tries == 2) {
			t.Errorf("%v: tried %d times, %v; want %d times", c.err, tries, err, c.tries)
		}
	}
}

// Whoever asked may go away while it is tried again.
func TestRetryEndsWithTheRequest(t *testing.T) {
	r := newRetrier()
	for err, want := range map[error]tuning.Refusal{errCollided: tuning.TooManyAtOnce, errLost: tuning.GivenUp} {
		ctx, giveUp := context.WithCancel(t.Context())
		tries := 0
		got := r.retry(ctx, "club", func() error {
			if tries++; tries == 2 {
				giveUp()
			}
			return err
		})
		if tries != 2 || !errors.Is(got, want) {
			t.Errorf("%v: tried %d times, %v", err, tries, got)
		}
		giveUp()
	}
}

// Those of one club that collided are tried again one at a time; those of
// another do not wait for them.
func TestRetriesTakeTurns(t *testing.T) {
	r := newRetrier()
	var inside, most, elsewhere atomic.Int32
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			tries := 0
			err := r.retry(t.Context(), "here", func() error {
				if tries++; tries == 1 {
					return errCollided
				}
				most.Store(max(most.Load(), inside.Add(1)))
				defer inside.Add(-1)
				first := true
				return r.retry(t.Context(), "there", func() error {
					if first {
						first = false
						return errCollided
					}
					elsewhere.Add(1)
					return nil
				})
			})
			if err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	if most.Load() != 1 || elsewhere.Load() != 8 || len(r.clubs.waiting) != 0 {
		t.Errorf("%d at a time, %d elsewhere, and %d still wait", most.Load(), elsewhere.Load(), len(r.clubs.waiting))
	}
}

// Whoever's turn does not come is told that it is busy.
func TestTurnDoesNotCome(t *testing.T) {
	var q queues
	leave, inTurn := q.wait(t.Context(), "club", time.Minute)
	if !inTurn {
		t.Fatal("nobody has the turn, and it does not come")
	}
	quit, late := q.wait(t.Context(), "club", time.Nanosecond)
	quit()
	if late {
		t.Error("two have the turn")
	}
	leave()
	if len(q.waiting) != 0 {
		t.Error("somebody still waits")
	}
}
