package store

import (
	"context"
	"time"

	"detent/tuning"
)

// Kept is how long the book of a club that left is kept for its return.
const Kept = 30 * 24 * time.Hour

// Shares tells whether a person's answers about their own cars are for all.
func (db *DB) Shares(ctx context.Context, key, person string) (shares bool, err error) {
	err = db.Read(ctx, tuning.Who{Club: key}, time.Time{}, func(b *Book) error {
		m, err := b.Member(ctx, person)
		shares = m.Shares()
		return err
	})
	return shares, err
}

// Left marks a club as having left at a moment. The first time counts; a club
// that has no book is not marked.
func (db *DB) Left(ctx context.Context, key string, at time.Time) error {
	return db.write(ctx, key, at, func(b *Book) error {
		return b.exec(ctx, `update clubs set left_at = coalesce(left_at, $1)`, at)
	})
}

// Back takes the mark away.
func (db *DB) Back(ctx context.Context, key string) error {
	return db.write(ctx, key, time.Time{}, func(b *Book) error {
		return b.exec(ctx, `update clubs set left_at = null where left_at is not null`)
	})
}

// Known lists the keys of the clubs of a place, as for Claim.
func (db *DB) Known(ctx context.Context, place string) (clubs []string, err error) {
	err = db.retries.retry(ctx, "", func() error {
		clubs = nil
		return db.pool.SelectContext(ctx, &clubs, `select known_clubs($1)`, place)
	})
	return clubs, err
}

// ForgetGone removes every club that left longer ago than it is kept for, with
// all that it has, and tells how many those were.
func (db *DB) ForgetGone(ctx context.Context, now time.Time) (clubs int, err error) {
	err = db.retries.retry(ctx, "", func() error {
		return db.pool.GetContext(ctx, &clubs, `select forget_clubs($1)`, now.Add(-Kept))
	})
	return clubs, err
}

// Waiting tells how many things are due in the clubs of a place and not yet
// sent.
func (db *DB) Waiting(ctx context.Context, now time.Time, place string) (n int, err error) {
	err = db.retries.retry(ctx, "", func() error { return db.pool.GetContext(ctx, &n, `select waiting($1, $2)`, now, place) })
	return n, err
}
