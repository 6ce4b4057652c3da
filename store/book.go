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
	tx     *transaction
	who    tuning.Who
	now    time.Time
	seen   sightings
	taken  map[int64]int64 // versions of cars that the book took itself
	erased bool            // whoever asks was erased
	shown  []string        // students whose things the reply shows

	// The rows of the club and of whoever asks, as they are now; nil: none.
	club   *clubRow
	member *memberRow

	// What someone changed between two attempts, and the change that did.
	changed map[int64]bool // cars
	turned  map[knob]int64 // adjusters
}

// sightings are what a request first saw of cars. All attempts at the request
// share them.
type sightings struct {
	versions map[int64]int64
	put      map[knob]int64 // the change that put an adjuster where it stood
}

// knob is one adjuster of one corner of a car.
type knob struct {
	car      int64
	corner   tuning.Corner
	adjuster tuning.Adjuster
}

func newSightings() sightings { return sightings{map[int64]int64{}, map[knob]int64{}} }

func newBook(tx *transaction, who tuning.Who, now time.Time, seen sightings) *Book {
	return &Book{tx: tx, who: who, now: now, seen: seen, taken: map[int64]int64{},
		changed: map[int64]bool{}, turned: map[knob]int64{}}
}

// saw notes the version of a car. A later attempt that finds another version
// than the first did must not turn that car's clicks: what it was asked to do
// was meant for the car as it stood.
func (b *Book) saw(car, version int64) {
	version -= b.taken[car]
	if first, again := b.seen.versions[car]; again && first != version {
		b.changed[car] = true
		return
	}
	b.seen.versions[car] = version
}

// sawStanding notes which changes put a car's adjusters where they stand. What
// the book changed itself is not noted.
func (b *Book) sawStanding(car int64, stands []standing) {
	if b.taken[car] != 0 {
		return
	}
	for _, s := range stands {
		k := knob{car, tuning.Corner(s.Corner), tuning.Adjuster(s.Adjuster)}
		if first, again := b.seen.put[k]; again && first != s.Change {
			b.turned[k] = s.Change
			continue
		}
		b.seen.put[k] = s.Change
	}
}

// overtakenBy tells whether someone got in before a change between two attempts
// at it, and by which change, 0 for the car's newest. Where an adjuster was put
// by hand holds as long as nobody else turned that adjuster; any other change
// was meant for the whole car as it stood.
func (b *Book) overtakenBy(car int64, change tuning.Change) (by int64, overtaken bool) {
	if change.Reason != tuning.ByHand {
		return 0, b.changed[car]
	}
	for _, m := range change.Moves {
		if by, overtaken := b.turned[knob{car, m.Corner, m.Adjuster}]; overtaken {
			return by, true
		}
	}
	return 0, false
}

// get reads one row. It returns sql.ErrNoRows when there is none, and what else
// the database refuses as a refusal.
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
