package migrations

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// Differs is returned for a database whose schema is not what this program's
// migrations of the same numbers make.
type Differs struct {
	Number      int64    // of the last migration it has had
	Differences []string // what is not as it should be, an item each; at least one
}

func (d *Differs) Error() string {
	return fmt.Sprintf("the schema is not the one that the migrations up to %d make: %s", d.Number, strings.Join(d.Differences, "; "))
}

// prove returns a *Differs unless the database is what this program's
// migrations make. One that has the hashes of all of them is; another's
// catalogue is compared with a fresh one.
func prove(ctx context.Context, conn *sql.Conn) error {
	all, err := readHad(ctx, conn)
	if err != nil {
		return err
	}
	differs := &Differs{}
	hashed := true
	for _, one := range all {
		differs.Number = max(differs.Number, one.number)
		name, known := byNumber[one.number]
		if !known {
			differs.Differences = append(differs.Differences, fmt.Sprintf("migration %04d is not known to this program", one.number))
			continue
		}
		hashed = hashed && one.hash == hashOf(name)
	}
	if hashed && len(differs.Differences) == 0 {
		return nil
	}
	if len(differs.Differences) == 0 {
		if differs.Differences, err = compare(ctx, conn, all); err != nil {
			return err
		}
	}
	if len(differs.Differences) == 0 {
		return nil
	}
	return differs
}

// compare tells how the schema differs from what the migrations make that the
// database has had. Comments that differ are no reason to refuse it: they are
// set to what the migrations say.
func compare(ctx context.Context, conn *sql.Conn, all []had) (differences []string, err error) {
	have, want, err := rehearse(ctx, conn, all)
	if m, ok := errors.AsType[misfit](err); ok {
		return []string{m.Error()}, nil
	}
	if err != nil {
		return nil, err
	}
	comments, mine := have.split()
	wanted, theirs := want.split()
	if differences = mine.Differences(theirs); len(differences) > 0 {
		return differences, nil
	}
	return nil, setComments(ctx, conn, comments, wanted)
}

// split parts the comments from the rest.
func (c Catalogue) split() (comments, rest Catalogue) {
	for _, item := range c {
		if item.Kind == Comment {
			comments = append(comments, item)
		} else {
			rest = append(rest, item)
		}
	}
	return comments, rest
}

// setComments turns the comments that there are into those that are wanted.
// Their words come from the migrations, never from a person.
func setComments(ctx context.Context, conn *sql.Conn, have, want Catalogue) error {
	for _, comment := range have {
		if !slices.ContainsFunc(want, func(w Item) bool { return w.Of == comment.Of }) {
			comment.Definition = ""
			want = append(want, comment)
		}
	}
	for _, comment := range want {
		if slices.Contains(have, comment) {
			continue
		}
		words := "'" + strings.ReplaceAll(comment.Definition, "'", "''") + "'" // '' takes the comment away
		if _, err := conn.ExecContext(ctx, "comment on "+comment.Of+" is "+words); err != nil {
			return err
		}
	}
	return nil
}
