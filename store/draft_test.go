package store_test

import (
	"context"
	"testing"
	"time"

	"detent/store"
	"detent/tuning"
)

// A draft is for whoever typed it, in their club, for a day.
func TestDrafts(t *testing.T) {
	r := open(t)
	var id int64
	r.once(sam, func(ctx context.Context, b *store.Book) (err error) {
		id, err = b.SaveDraft(ctx, "/feel grip:lots")
		return err
	})
	read := func(who tuning.Who, at time.Time) (line string, err error) {
		failed := r.db.Read(t.Context(), who, at, func(b *store.Book) error {
			line, err = b.Draft(t.Context(), id)
			return nil
		})
		must(t, failed)
		return line, err
	}
	if line, err := read(sam, morning.Add(23*time.Hour)); err != nil || line != "/feel grip:lots" {
		t.Errorf("%q, %v", line, err)
	}
	other := sam
	other.Person = "kim"
	for what, found := range map[string]error{
		"a day later":       second(read(sam, morning.Add(25*time.Hour))),
		"to another person": second(read(other, morning)),
		"in another club":   second(read(elsewhere, morning)),
	} {
		if tuning.KindOf(found) != tuning.NotFound {
			t.Errorf("%s it is still there: %v", what, found)
		}
	}
}

// Old drafts go with old replies, in every club.
func TestOldDraftsGo(t *testing.T) {
	r := open(t)
	now := time.Now()
	for _, at := range []time.Time{now.Add(-25 * time.Hour), now.Add(-time.Hour)} {
		_, err := r.db.Once(t.Context(), sam, at, "at "+at.String(), func(b *store.Book) ([]byte, error) {
			_, err := b.SaveDraft(t.Context(), "/fly")
			return nil, err
		})
		must(t, err)
	}
	_, err := r.db.ForgetReplies(t.Context(), now)
	must(t, err)
	if n := r.count("drafts"); n != 1 {
		t.Errorf("%d drafts are left", n)
	}
}

func second[T any](_ T, err error) error { return err }
