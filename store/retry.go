package store

import (
	"context"
	"math/rand/v2"
	"sync"
	"time"

	"github.com/lib/pq"
	"github.com/lib/pq/pqerror"

	"detent/tuning"
)

const (
	// collidingFor bounds how long a transaction is tried again because others
	// were in its way, and losingFor because the connection was lost.
	collidingFor = 8 * time.Second
	losingFor    = 500 * time.Millisecond

	// shortest is the longest pause before the second attempt. Before each
	// later one it may be twice as long, up to longest.
	shortest = 10 * time.Millisecond
	longest  = 160 * time.Millisecond

	// briefly is the longest pause of a transaction that has the turn: others
	// wait for it, and few are left to collide with.
	briefly = 2 * time.Millisecond
)

// retrier tries transactions again. Those of one club that collided take turns
// within the process: without turns each would collide with all others again.
type retrier struct {
	now   func() time.Time
	pause func(ctx context.Context, most time.Duration) error
	clubs queues
}

func newRetrier() *retrier { return &retrier{now: time.Now, pause: pauseAtRandom} }

// pauseAtRandom waits for a random part of most, so that two that collided do
// not do so again.
func pauseAtRandom(ctx context.Context, most time.Duration) error {
	select {
	case <-time.After(rand.N(most)):
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// retry tries a transaction of a club ("" for all) until it succeeds, fails by
// itself, or its time is up. It returns the last error as a refusal.
func (r *retrier) retry(ctx context.Context, club string, try func() error) error {
	err := r.tryAll(ctx, club, try)
	// A query that is given up may end with its connection, which then looks as
	// if the database were away.
	if ctx.Err() != nil && lost(err) {
		return because(tuning.GivenUp, err)
	}
	return err
}

func (r *retrier) tryAll(ctx context.Context, club string, try func() error) error {
	err := try()
	began := r.now()
	leave, inTurn := func() {}, false
	defer func() { leave() }()
	for most := shortest; again(err); most = min(2*most, longest) {
		left := patienceWith(err) - r.now().Sub(began)
		switch {
		case left <= 0:
			return inTheEnd(err)
		case !collided(err):
			if r.pause(ctx, most) != nil {
				return inTheEnd(err)
			}
		case inTurn:
			if r.pause(ctx, briefly) != nil {
				return inTheEnd(err)
			}
		default:
			if leave, inTurn = r.clubs.wait(ctx, club, left); !inTurn {
				return inTheEnd(err)
			}
		}
		err = try()
	}
	return problem(err)
}

// inTheEnd is the refusal to return when trying again is given up.
func inTheEnd(err error) error {
	if collided(err) {
		return because(tuning.TooManyAtOnce, err)
	}
	return problem(err)
}

// patienceWith is how long an error is worth trying again.
func patienceWith(err error) time.Duration {
	if collided(err) {
		return collidingFor
	}
	return losingFor
}

// again tells whether trying again may help.
func again(err error) bool { return collided(err) || lost(err) }

// collided tells whether err means that another transaction was in the way, so
// that the same again may well succeed.
func collided(err error) bool {
	e := pq.As(err, pqerror.TRSerializationFailure, pqerror.TRDeadlockDetected, pqerror.UniqueViolation)
	return e != nil && (e.Code != pqerror.UniqueViolation || raced[e.Constraint])
}

// raced are the unique keys that are only met by two at one moment: whoever
// comes later sees the other's row and does not insert another.
var raced = map[string]bool{"requests_pkey": true, "coachings_once": true}

// queues lets one at a time have the turn of a club.
type queues struct {
	mu      sync.Mutex
	waiting map[string]*turn
}

// turn is held by whoever has put something into its channel.
type turn struct {
	taken chan struct{}
	users int
}

// wait waits for the turn of a club, in the order of coming, and tells whether
// it came in time. The caller calls leave either way.
func (q *queues) wait(ctx context.Context, club string, most time.Duration) (leave func(), inTurn bool) {
	mine := q.join(club)
	late := time.NewTimer(most)
	defer late.Stop()
	select {
	case mine.taken <- struct{}{}:
		return func() { <-mine.taken; q.quit(club, mine) }, true
	case <-late.C:
	case <-ctx.Done():
	}
	return func() { q.quit(club, mine) }, false
}

func (q *queues) join(club string) *turn {
	q.mu.Lock()
	defer q.mu.Unlock()
	if q.waiting == nil {
		q.waiting = map[string]*turn{}
	}
	if q.waiting[club] == nil {
		q.waiting[club] = &turn{taken: make(chan struct{}, 1)}
	}
	q.waiting[club].users++
	return q.waiting[club]
}

func (q *queues) quit(club string, mine *turn) {
	q.mu.Lock()
	defer q.mu.Unlock()
	if mine.users--; mine.users == 0 {
		delete(q.waiting, club)
	}
}
