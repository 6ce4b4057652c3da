package store

import (
	"context"
	"math"
	"time"

	"github.com/lib/pq"

	"detent/tuning"
	"detent/tuning/calendar"
)

// Schedule replaces what is due of an event for a person ("" for the club's
// channel; event 0 for what belongs to none): what is not given comes off the
// timetable, what people wrote excepted. What was sent stays sent: a question is not asked a second time,
// and the rest only when it falls due again after it was sent.
func (b *Book) Schedule(ctx context.Context, event int64, person string, due []calendar.Due) error {
	kinds := make([]string, len(due))
	for i, d := range due {
		kinds[i] = string(d.Kind)
		err := b.exec(ctx, `
			insert into due (kind, person, event, due_at, until, next_at)
			values ($1, nullif($2, ''), nullif($3::bigint, 0), $4, $5, $4)
			on conflict (club, coalesce(event, 0), coalesce(person, ''), kind, coalesce(about, 0)) do update set
				due_at = excluded.due_at, until = excluded.until, attempts = 0,
				next_at = case when due.lease is null or due.next_at is null then excluded.due_at else due.next_at end
			where due.next_at is not null or due.outcome <> 'sent'
				or due.kind not in ('ask-feel', 'ask-again') and excluded.due_at > due.settled_at`,
			d.Kind, person, event, d.At, d.Until)
		if err != nil {
			return err
		}
	}
	return b.exec(ctx, `
		update due set next_at = null, settled_at = $4, outcome = 'withdrawn', note = ''
		where coalesce(event, 0) = $1 and coalesce(person, '') = $2 and next_at is not null and about is null and kind <> all ($3)`,
		event, person, pq.Array(kinds), b.now)
}

// Claim takes at most so many of the things that are due at now in any club of
// a place: one whose key begins with its name and a colon, or for "" one that
// has no place. What was tried before goes first, then the oldest. Nobody else
// gets them before the lease has run out.
func (db *DB) Claim(ctx context.Context, now time.Time, place string, lease time.Duration, most int) (claimed []calendar.Due, err error) {
	err = db.retries.retry(ctx, "", func() error {
		claimed = nil
		return db.pool.SelectContext(ctx, &claimed, `select * from claim_due($1, $2, $3 * interval '1 microsecond', $4)`,
			now, place, lease.Microseconds(), most)
	})
	return claimed, err
}

// Due shows, oldest first, everything that Claim would take at now, as if it
// were claimed, and leaves it to be claimed.
func (db *DB) Due(ctx context.Context, now time.Time, place string) (due []calendar.Due, err error) {
	const all, moment = math.MaxInt32, 1 // however short the lease is, it is taken back
	err = db.retries.retry(ctx, "", func() error {
		due = nil
		tx, err := db.pool.BeginTxx(ctx, nil)
		if err != nil {
			return err
		}
		defer tx.Rollback()
		return tx.SelectContext(ctx, &due, `select * from claim_due($1, $2, $3 * interval '1 microsecond', $4)`, now, place, moment, all)
	})
	return due, err
}

// Occasion reads what stands around a thing that was claimed.
func (db *DB) Occasion(ctx context.Context, now time.Time, d calendar.Due) (o calendar.Occasion, err error) {
	err = db.Read(ctx, tuning.Who{Club: d.Club}, now, func(b *Book) (err error) {
		o = calendar.Occasion{}
		if o.Club, err = b.Club(ctx); err != nil {
			return err
		}
		if err := b.get(ctx, &o.Left, `select exists (select from clubs where left_at is not null)`); err != nil {
			return err
		}
		if d.Event != 0 {
			events, err := b.events(ctx, `where id = $1`, d.Event)
			if err != nil {
				return err
			}
			o.Event = first(events)
		}
		if d.Person == "" {
			return nil
		}
		if o.Member, err = b.Member(ctx, d.Person); err != nil {
			return err
		}
		if err := b.written(ctx, d, &o); err != nil || d.Event == 0 {
			return err
		}
		o.Cars, err = b.entrants(ctx, `n.event = $1 and c.owner = $2`, d.Event, d.Person)
		return err
	})
	return o, err
}

// Settle ends a claim with its outcome and a note. A next time, if it has one,
// puts it on the timetable again, unless it was taken off meanwhile. It is a
// Conflict when the lease has gone to another.
func (db *DB) Settle(ctx context.Context, now time.Time, d calendar.Due, outcome calendar.Outcome, note string, next calendar.Due) error {
	then := nothingMore
	if outcome == calendar.Sent && d.Kind.FromCoach() {
		then = toldHow(d)
	}
	return db.fenced(ctx, now, d, then, `
		update due set lease = null, settled_at = $3, outcome = $4, note = $5,
			due_at = coalesce($6, due_at), until = coalesce($7, until),
			next_at = case when next_at is not null then $6::timestamptz end,
			attempts = case when $6 is null then attempts else 0 end
		where id = $1 and lease = $2`, now, outcome, note, orNull(next.At), orNull(next.Until))
}

// Postpone ends a claim and lets the thing be claimed again at a later time,
// unless it was taken off meanwhile. The attempts are kept as d has them. It is
// a Conflict when the lease has gone to another.
func (db *DB) Postpone(ctx context.Context, now time.Time, d calendar.Due, to time.Time, note string) error {
	return db.fenced(ctx, now, d, nothingMore, `
		update due set lease = null, attempts = $4, note = $5,
			next_at = case when next_at is not null then $3::timestamptz end
		where id = $1 and lease = $2`, to, d.Attempts, note)
}

// fenced runs a statement on a due row that finds it only by the lease, and
// then what belongs to it.
func (db *DB) fenced(ctx context.Context, now time.Time, d calendar.Due, then func(context.Context, *Book) error, query string, args ...any) error {
	return db.write(ctx, d.Club, now, func(b *Book) error {
		result, err := b.tx.ExecContext(ctx, query, append([]any{d.ID, d.Lease}, args...)...)
		if err != nil {
			return err
		}
		n, err := result.RowsAffected()
		switch {
		case err != nil:
			return err
		case n != 1:
			return tuning.LeaseTaken
		}
		return then(ctx, b)
	})
}

func nothingMore(context.Context, *Book) error { return nil }

// CloseDirect notes that the platform refuses direct messages to a person.
func (db *DB) CloseDirect(ctx context.Context, now time.Time, club, person string) error {
	return db.write(ctx, club, now, func(b *Book) error {
		return b.exec(ctx, `update members set no_direct = true where person = $1`, person)
	})
}

// write runs fn on a book that can be written to and that no request asks for.
// fn runs again as for Once, and when it cannot be told whether it was kept.
func (db *DB) write(ctx context.Context, club string, now time.Time, fn func(*Book) error) error {
	return db.retries.retry(ctx, club, func() error {
		tx, err := db.begin(ctx, readWrite)
		if err != nil {
			return err
		}
		defer tx.leave()
		book := newBook(tx, tuning.Who{Club: club}, now, newSightings())
		if _, err := book.open(ctx, nil); err != nil {
			return err
		}
		if err := fn(book); err != nil {
			return err
		}
		return tx.commit(ctx)
	})
}
