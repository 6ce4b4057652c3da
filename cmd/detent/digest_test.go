package main

import (
	"os"
	"strings"
	"testing"

	"detent/store"
	"detent/tuning"
)

// A coach's Monday tells what the students did since the last one. It counts as a
// look once it has arrived, and nothing is sent when there is nothing to tell.
func TestACoachsMondays(t *testing.T) {
	p := newPaddock(t) // on a Saturday
	robin := p.as("--as", "Robin").blueHatch()
	p.as("--as", "Sam").does(`/me set units:metric`)
	kim := p.as("--as", "Kim", "--role", "coach")
	kim.does(`/coach ask member:Robin`, `/coach ask member:Sam`)
	robin.does(`/coach accept member:Kim`, `/clicks set at:front adjuster:rebound to:10`)

	db, err := store.Open(t.Context(), os.Getenv("DETENT_DATABASE_URL"))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	closed := func() (closed bool) {
		t.Helper()
		err := db.Read(t.Context(), tuning.Who{Club: "paddock"}, rushHour, func(b *store.Book) error {
			m, err := b.Member(t.Context(), "Kim")
			closed = m.NoDirect
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		return closed
	}

	// A person who takes no direct messages does not count as having acted.
	if err := db.CloseDirect(t.Context(), rushHour, "paddock", "Kim"); err != nil {
		t.Fatal(err)
	}
	if printed, errs := p.due("2026-05-18T09:00:00Z"); len(printed) != 0 || !strings.Contains(errs, "no direct messages") || !closed() {
		t.Errorf("to whoever takes no direct messages it prints %+v\n%s", printed, errs)
	}
	if seen := robin.does(`/coach seen`); seen.Title != "No coach has looked at your things" {
		t.Errorf("what never arrived counts as a look: %q", seen.Text)
	}

	kim.does(`/me set reminders:on`) // which opens direct messages again
	robin.as("--at", "2026-05-20T10:00:00Z").does(`/clicks set at:front adjuster:rebound to:12`, `/feel grip:6 entry:-1 notes:"turns in now"`)
	printed, _ := p.due("2026-05-25T09:00:00Z")
	if len(printed) != 1 || printed[0].To != "Kim" || !strings.Contains(printed[0].Text, "Robin: Blue hatch, 1 change, last: Front rebound 2 softer") ||
		!strings.Contains(printed[0].Text, "\n- 20 May: grip 6, entry pushes wide 1, “turns in now”") {
		t.Fatalf("the coach is told %+v", printed)
	}
	if seen := robin.does(`/coach seen`); !strings.Contains(seen.Text, "25 May 09:00: Kim looked at the week's changes and feel") {
		t.Errorf("the look is listed as %q", seen.Text)
	}
	if quiet, errs := p.due("2026-06-01T09:00:00Z"); len(quiet) != 0 || !strings.Contains(errs, "there is nothing to tell") {
		t.Errorf("of a week without anything new it prints %+v\n%s", quiet, errs)
	}
	if n := due(t, "Kim"); n != 1 {
		t.Errorf("%d digests are due while there is a student", n)
	}
	robin.does(`/me erase sure:yes`)
	if p.due("2026-06-08T09:00:00Z"); due(t, "Kim") != 0 {
		t.Error("digests go on without a student")
	}
}
