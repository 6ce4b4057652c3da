package main

import (
	"os"
	"strings"
	"testing"

	"github.com/jmoiron/sqlx"
)

func TestErasingKeepsTheTotalsAndNothingElse(t *testing.T) {
	p := newPaddock(t)
	olga := p.as("--as", "Olga", "--role", "organiser")
	olga.does(`/event add name:"Spring day" starts:"2026-05-16 11:00" ends:"2026-05-16 17:00"`)
	robin := p.as("--as", "Robin").blueHatch()
	robin.does(`/event enter`)
	p.as("--as", "Sam").blueHatch().does(`/event enter`)
	kim := p.as("--as", "Kim", "--role", "coach")
	kim.does(`/me set units:metric`, `/coach ask member:Robin`)
	robin.does(`/coach accept member:Kim`)
	kim.does(`/coach students member:Robin`, `/coach week`, `/coach suggest member:Robin at:front adjuster:bump to:3 why:"try it"`)
	evening := "2026-05-16T18:00:00Z"
	robin.as("--at", evening).does(`/feel grip:7`)
	before := olga.as("--at", evening).does(`/event summary`)
	if !strings.Contains(before.Title, "2 cars, 1 answer in") {
		t.Fatalf("before: %q", before.Title)
	}
	if r := robin.does(`/me erase`); !strings.Contains(r.Title, "for good") {
		t.Errorf("it does not ask once more: %q", r.Title)
	}
	robin.does(`/me erase sure:yes`)
	if after := olga.as("--at", evening).does(`/event summary`); after.Title != before.Title {
		t.Errorf("the totals changed from %q to %q", before.Title, after.Title)
	}
	db, err := sqlx.Connect("postgres", os.Getenv("DETENT_DATABASE_URL"))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	var left int
	if err := db.Get(&left, `select count(*) from requests where position('Robin'::bytea in reply) > 0`); err != nil {
		t.Fatal(err)
	}
	if left > 0 {
		t.Errorf("%d kept replies still name them", left)
	}
}
