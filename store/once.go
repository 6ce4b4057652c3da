package store

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/lib/pq"

	"detent/tuning"
)

// Read runs fn on a book that shows one moment and takes nothing in. When the
// connection is lost it runs fn again on another.
func (db *DB) Read(ctx context.Context, who tuning.Who, now time.Time, fn func(*Book) error) error {
	return db.retries.retry(ctx, "", func() error { // readers are in nobody's way
		tx, err := db.begin(ctx, readOnly)
		if err != nil {
			return err
		}
		defer tx.leave()
		book := newBook(tx, who, now, newSightings())
		if _, err := book.open(ctx, nil); err != nil {
			return err
		}
		return fn(book)
	})
}

// Once runs fn on a book that can be written to and keeps the reply it returns
// under the request's id, with whatever it wrote: all of it or nothing. Asked
// again with the same id by the same person it returns the first reply and
// runs nothing. fn runs again when another transaction was in the way or the
// connection was lost, so it must do nothing but read and write the book.
//
// When fn returns an error nothing is kept, and of a Refused its reply alone.
// When the server goes away before it says whether something was, the request
// is asked again for a while; Undecided means that it still cannot be told,
// and that asking again with the same id settles it.
func (db *DB) Once(ctx context.Context, who tuning.Who, now time.Time, id string, fn func(*Book) ([]byte, error)) ([]byte, error) {
	reply, err := db.settle(ctx, func() ([]byte, error) { return db.once(ctx, who, now, id, fn) })
	if refused, ok := errors.AsType[*Refused](err); ok {
		return db.once(ctx, who, now, id, func(*Book) ([]byte, error) { return refused.Reply, nil })
	}
	return reply, err
}

// Refused is the error of a function given to Once that has turned the request
// down: the reply is kept, and nothing that the function wrote.
type Refused struct{ Reply []byte }

func (*Refused) Error() string { return "the request is refused" }

// Withheld is the error of Once for a repeated request whose first reply showed
// the things of a student whose coaching has ended since. The request is not
// answered anew either.
type Withheld struct{}

func (Withheld) Error() string { return "the reply shows a student whose coaching has ended" }

// once is Once for what is kept whole or not at all.
func (db *DB) once(ctx context.Context, who tuning.Who, now time.Time, id string, fn func(*Book) ([]byte, error)) (reply []byte, err error) {
	seen := newSightings()
	unknown := false
	err = db.retries.retry(ctx, who.Club, func() error {
		tx, err := db.begin(ctx, readWrite)
		if err != nil {
			return err
		}
		defer tx.leave()
		book := newBook(tx, who, now, seen)
		answered, err := book.open(ctx, &id)
		if err != nil {
			return err
		}
		if reply = answered.reply; answered.withheld {
			return Withheld{}
		} else if reply != nil {
			return nil
		}
		if err = book.welcome(ctx); err != nil {
			return err
		}
		if reply, err = fn(book); err != nil {
			return err
		}
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if err := book.keep(ctx, id, reply); err != nil {
			return err
		}
		// From here on only the server knows, until it has said so.
		err = tx.commit(ctx)
		unknown = unknown || err != nil && (pq.As(err) == nil || lost(err))
		return err
	})
	switch {
	case err == nil:
		return reply, nil
	case unknown:
		return nil, because(tuning.Undecided, fmt.Errorf("%w: %w", errUnknown, err))
	}
	return nil, err
}

// RepliesKept is how long a request that is sent again gets its first reply.
const RepliesKept = 30 * 24 * time.Hour

// forgotten is how many replies are forgotten in one transaction.
const forgotten = 5000

// ForgetReplies removes the replies, in all clubs, that have been kept long
// enough, and tells how many those were.
func (db *DB) ForgetReplies(ctx context.Context, now time.Time) (replies int, err error) {
	for {
		var some int
		err := db.retries.retry(ctx, "", func() error {
			return db.pool.GetContext(ctx, &some, `select forget_requests($1, $2)`, now.Add(-RepliesKept), forgotten)
		})
		if replies += some; err != nil || some < forgotten {
			return replies, err
		}
	}
}

// keep remembers the reply to a request. A request that erased whoever asked
// leaves nothing behind, its reply neither.
func (b *Book) keep(ctx context.Context, id string, reply []byte) error {
	if b.erased {
		return nil
	}
	reply = append([]byte{}, reply...) // nil would be null
	return b.exec(ctx, `select keep_reply($1, $2, $3, $4, $5)`, b.who.Person, id, b.now, reply, pq.Array(b.shown))
}
