package store_test

import (
	"context"
	"slices"
	"testing"

	"detent/store"
	"detent/tuning"
)

// export reads what the club holds about someone.
func (r record) export(who tuning.Who) (all map[string][]map[string]any) {
	r.Helper()
	r.read(who, func(ctx context.Context, b *store.Book) (err error) {
		all, err = b.Export(ctx, who.Person)
		return err
	})
	return all
}

// A table that holds something about a person cannot be forgotten: there are
// rows in every table, and all that belong to the person are handed out.
func TestExportIsWhole(t *testing.T) {
	r := open(t)
	r.everything(sam)
	all := r.export(sam)
	for _, table := range r.tables() {
		kept := r.count(table)
		switch table {
		case "clubs": // what a club has set is no one's
			continue
		case "members":
			kept-- // the coach
		}
		if got := len(all[table]); got == 0 || got != kept {
			t.Errorf("%d rows of %s are handed out, %d are kept", got, table, kept)
		}
	}
	r.everything(robin)
	same(t, r.export(sam), all)
}

func TestExportHasWhatACoachSuggested(t *testing.T) {
	r := open(t)
	car := r.car(sam, "Blue hatch")
	r.once(robin, func(ctx context.Context, b *store.Book) error {
		_, err := b.Suggest(ctx, robin.Person, tuning.Advice{Car: car.ID}, tuning.Setting{})
		return err
	})
	if suggested := r.export(robin)["advice"]; len(suggested) != 1 {
		t.Errorf("of one suggestion the coach is handed out %v", suggested)
	}
}

func TestExportIsReadable(t *testing.T) {
	r := open(t)
	r.everything(sam)
	all := r.export(sam)
	feel := all["feels"][0]
	if feel["notes"] != "said by person-sam" || feel["grip"] != 6.0 || feel["at"] != "2026-05-02T09:30:00+00:00" {
		t.Errorf("the feel is handed out as %v", feel)
	}
	if _, ok := all["requests"][0]["reply"]; ok {
		t.Error("a reply is handed out in the program's own form")
	}
}

func TestEraseLeavesNothing(t *testing.T) {
	r := open(t)
	r.everything(sam)
	r.everything(robin)
	r.everything(elsewhere)
	before := r.export(robin)

	// Each has had a hand in the other's car.
	theirs := r.theCase(robin)
	r.once(sam, func(ctx context.Context, b *store.Book) error {
		_, err := b.Record(ctx, theirs.Car, byHand(turn(theirs, tuning.Rebound, 2)))
		return err
	})
	mine := r.theCase(sam)
	r.once(robin, func(ctx context.Context, b *store.Book) error {
		_, err := b.Record(ctx, mine.Car, byHand(turn(mine, tuning.Rebound, 2)))
		return err
	})
	stands := r.theCase(robin)

	r.once(sam, func(ctx context.Context, b *store.Book) error { return b.Erase(ctx, sam.Person) })

	for _, table := range r.tables() {
		var rows []string
		must(t, r.admin.Select(&rows, `select t::text from `+table+` t where t::text ~ $1 and club = $2`,
			`\m(`+sam.Person+`|`+sam.Name+`)\M`, sam.Club))
		if len(rows) != 0 {
			t.Errorf("%s still holds %v", table, rows)
		}
	}
	if all := r.export(sam); len(all) != 0 {
		t.Errorf("there is still something to hand out: %v", all)
	}
	// Another's car stands where it stood, and its log still leads there.
	after := r.theCase(robin)
	if after.Setting != stands.Setting || after.History.Changes[0].By != "" || len(after.History.Changes) != len(stands.History.Changes) {
		t.Errorf("the other's car is left as %+v", after)
	}
	r.read(robin, func(ctx context.Context, b *store.Book) error {
		entries, _, err := b.Log(ctx, after.Car, 1)
		for _, e := range entries {
			if e.ByName == sam.Name {
				t.Errorf("the log still names %q", e.ByName)
			}
		}
		return err
	})
	kept := r.export(robin)
	for table, rows := range before {
		if len(kept[table]) < len(rows) {
			t.Errorf("%s lost rows of someone who stayed", table)
		}
	}
	if cars := r.export(elsewhere)["cars"]; len(cars) != 1 {
		t.Errorf("another club lost its cars: %v", cars)
	}
}

// Who comes back is someone new.
func TestEraseAgain(t *testing.T) {
	r := open(t)
	r.everything(sam)
	for range 2 {
		_, err := r.db.Once(t.Context(), sam, morning, "leave", func(b *store.Book) ([]byte, error) {
			return []byte("gone"), b.Erase(t.Context(), sam.Person)
		})
		must(t, err)
	}
	if n := r.count("members"); n != 1 {
		t.Errorf("%d members are left, want only the coach", n)
	}
	r.everything(sam)
	if all := r.export(sam); len(all["cars"]) != 1 || len(all["requests"]) == 0 {
		t.Errorf("who came back has %v", all)
	}
}

// Every row that hangs on a person does so by a foreign key, so that none is
// left behind.
func TestEveryTableHangsOnAPerson(t *testing.T) {
	r := open(t)
	var reached []string
	must(t, r.admin.Select(&reached, `
		with recursive reach as (
			select 'members'::regclass::oid as rel
			union
			select conrelid from pg_constraint join reach on confrelid = rel
			where contype = 'f' and confdeltype in ('c', 'n')
		)
		select rel::regclass::text from reach order by 1`))
	for _, table := range r.tables() {
		if table != "clubs" && !slices.Contains(reached, table) {
			t.Errorf("what %s holds about a person stays when they leave", table)
		}
	}
}
