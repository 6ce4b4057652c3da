package store_test

import (
	"context"
	"testing"

	"detent/store"
	"detent/tuning"
)

func TestClubsThatLeaveAreForgotten(t *testing.T) {
	r := open(t)
	ctx := t.Context()
	stays := tuning.Who{Club: "long-meadow", Person: "person-kim", Name: "Kim"}
	for _, who := range []tuning.Who{sam, robin, elsewhere, stays} {
		r.everything(who)
	}
	forget := func(after int) int {
		t.Helper()
		n, err := r.db.ForgetGone(ctx, morning.AddDate(0, 0, after))
		must(t, err)
		return n
	}
	clubs, err := r.db.Known(ctx, "")
	must(t, err)
	same(t, clubs, []string{sam.Club, elsewhere.Club, stays.Club})
	if n, err := r.db.Waiting(ctx, morning.AddDate(5, 0, 0), ""); err != nil || n != 8 {
		t.Errorf("%d things are waiting, %v; want two of each", n, err)
	}
	if n, err := r.db.Waiting(ctx, morning.AddDate(5, 0, 0), "elsewhere"); err != nil || n != 0 {
		t.Errorf("%d things are waiting at another place, %v", n, err)
	}
	must(t, r.db.Left(ctx, sam.Club, morning))
	must(t, r.db.Left(ctx, sam.Club, morning.AddDate(0, 0, 9))) // the platform tells it again
	must(t, r.db.Left(ctx, stays.Club, morning))
	must(t, r.db.Back(ctx, stays.Club))
	must(t, r.db.Left(ctx, "never-heard-of", morning))

	if n := forget(29); n != 0 {
		t.Errorf("%d clubs are forgotten too early", n)
	}
	if n := forget(31); n != 1 {
		t.Errorf("%d clubs are forgotten, want 1", n)
	}
	for _, table := range r.tables() {
		var left int
		must(t, r.admin.Get(&left, `select count(*) from `+table+` where club = $1`, sam.Club))
		if left != 0 {
			t.Errorf("%s still holds %d rows of the club", table, left)
		}
	}
	for _, who := range []tuning.Who{elsewhere, stays} {
		if cars := r.export(who)["cars"]; len(cars) != 1 {
			t.Errorf("%s lost its cars: %v", who.Club, cars)
		}
	}
	if n := forget(60); n != 0 {
		t.Errorf("%d clubs are forgotten twice", n)
	}
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		if club, err := b.Club(ctx); err != nil || club != tuning.DefaultClub(sam.Club) {
			t.Errorf("a forgotten club is %+v, %v", club, err)
		}
		return nil
	})
	if store.Kept.Hours() != 30*24 {
		t.Error("clubs are kept for another time than the README says")
	}
}
