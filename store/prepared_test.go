package store_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"detent/store"
)

// What is asked again on a connection is prepared there, and nothing that is
// sent to be prepared has a value in it.
func TestWhatIsAskedAgainIsPrepared(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	var statements []string
	prepared := func() []string {
		r.read(sam, func(ctx context.Context, b *store.Book) error {
			statements = nil
			for range 3 {
				if _, err := b.Case(ctx, sam.Person, ""); err != nil {
					return err
				}
			}
			return store.Select(ctx, b, &statements, `select statement from pg_prepared_statements order by statement`)
		})
		return statements
	}
	prepared()
	first := prepared()
	for _, part := range []string{"from open_book($1", "with named as"} {
		if !slices.ContainsFunc(first, func(statement string) bool { return strings.Contains(statement, part) }) {
			t.Fatalf("%q is not prepared, only %q", part, first)
		}
	}
	same(t, prepared(), first)
}

// A schema that is changed under a prepared statement does not show.
func TestPreparedAndChanged(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	for range 3 {
		r.theCase(sam)
	}
	before := r.theCase(sam)
	r.admin.MustExec(`alter table members alter column name type varchar(99)`)
	r.admin.MustExec(`alter table events alter column most type integer`)
	same(t, r.theCase(sam), before)
}
