package store

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"detent/tuning"
)

// Book is what one transaction may read and write: the rows of one club, under
// one clock. It is good only inside the function it is given to.
type Book struct {
	tx      *transaction
	who     tuning.Who
	now     time.Time
	seen    sightings
	taken   map[int64]int64 // versions of cars that the book took itself
	changed map[int64]bool  // cars that someone changed between two attempts
	erased  bool            // whoever asks was erased
}

// sightings are the versions that cars had when a request first saw them. All
// attempts at a request share them.
type sightings map[int64]int64

func newBook(tx *transaction, who tuning.Who, now time.Time, seen sightings) *Book {
	return &Book{tx: tx, who: who, now: now, seen: seen, taken: map[int64]int64{}, changed: map[int64]bool{}}
}

// saw notes the version of a car. A later attempt that finds another version
// than the first did must not turn that car's clicks: what it was asked to do
// was meant for the car as it stood.
func (b *Book) saw(car, version int64) {
	version -= b.taken[car]
	if first, again := b.seen[car]; again && first != version {
		b.changed[car] = true
		return
	}
	b.seen[car] = version
}

// get reads one row. The error is sql.ErrNoRows when there is none, and a
// Problem otherwise.
func (b *Book) get(ctx context.Context, row any, query string, args ...any) error {
	err := b.tx.GetContext(ctx, row, query, args...)
	if errors.Is(err, sql.ErrNoRows) {
		return err
	}
	return problem(err)
}

// list reads all rows.
func (b *Book) list(ctx context.Context, rows any, query string, args ...any) error {
	return problem(b.tx.SelectContext(ctx, rows, query, args...))
}

// exec runs a statement that returns nothing.
func (b *Book) exec(ctx context.Context, query string, args ...any) error {
	_, err := b.tx.ExecContext(ctx, query, args...)
	return problem(err)
}

// named puts the fields of arg where the query names them, as :field.
func (b *Book) named(query string, arg any) (bound string, args []any, err error) {
	bound, args, err = b.tx.bind(query, arg)
	return bound, args, problem(err)
}

// orNull is a time for a column that is null while it is not known.
func orNull(t time.Time) sql.NullTime { return sql.NullTime{Time: t, Valid: !t.IsZero()} }
