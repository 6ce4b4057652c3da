package store

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"detent/tuning"
)

// DraftsKept is how long a line that was refused can be corrected.
const DraftsKept = 24 * time.Hour

// SaveDraft keeps a line of the person who asks, for a day, and returns its
// number.
func (b *Book) SaveDraft(ctx context.Context, line string) (id int64, err error) {
	err = b.get(ctx, &id, `insert into drafts (person, at, line) values ($1, $2, $3) returning id`, b.who.Person, b.now, line)
	return id, problem(err)
}

// Draft finds a line that the person who asks had kept in the last day.
func (b *Book) Draft(ctx context.Context, id int64) (line string, err error) {
	err = b.get(ctx, &line, `select line from drafts where id = $1 and person = $2 and at > $3`, id, b.who.Person, b.now.Add(-DraftsKept))
	if errors.Is(err, sql.ErrNoRows) {
		return "", tuning.DraftGone
	}
	return line, problem(err)
}
