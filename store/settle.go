package store

import (
	"context"
	"errors"
	"time"
)

const (
	// settling is how long a request that may have been kept is asked again
	// under its id: long enough for a standby to be promoted by hand.
	settling = 15 * time.Second

	// between is the pause between two of those.
	between = 250 * time.Millisecond
)

// errUnknown is a commit that the server did not answer: the request may be
// kept or not.
var errUnknown = errors.New("it cannot be told whether that was kept")

// settle asks once and, when the server goes away before it says whether the
// request is kept, again until a server says so: the first answer under the
// id is the answer. When none does in time it returns the first error.
func (db *DB) settle(ctx context.Context, once func() ([]byte, error)) ([]byte, error) {
	reply, err := once()
	unknown := err
	if !errors.Is(unknown, errUnknown) {
		return reply, err
	}
	ctx, cancel := context.WithTimeout(ctx, db.settling)
	defer cancel()
	for errors.Is(err, errUnknown) || lost(err) {
		select {
		case <-time.After(between):
		case <-ctx.Done():
			return nil, unknown
		}
		reply, err = once()
	}
	return reply, err
}
