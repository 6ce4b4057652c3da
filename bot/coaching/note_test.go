package coaching_test

import (
	"strings"
	"testing"

	"detent/bot/bottest"
	"detent/tuning"
)

func TestNotes(t *testing.T) {
	wall, kim, robin := newPitwall(t)
	if r := robin.Does(`/coach notes`); r.Title != "Nothing from a coach" {
		t.Errorf("%q", r.Title)
	}
	kim.Refused(tuning.Forbidden, "is not your student", `/coach note member:robin text:hello`)
	agree(kim, robin)
	kim.Refused(tuning.Invalid, "Say something in text.", `/coach note member:robin text:" "`)
	kim.Refused(tuning.Limit, "Keep text under 1000", `/coach note member:robin text:"`+strings.Repeat("x", 1001)+`"`)
	kim.Does(`/coach note member:robin text:" Well done. "`)
	if r := robin.Does(`/coach notes`); r.Title != "From your coaches" || len(r.Notes) != 1 || r.Notes[0] != "16 May, kim: “Well done.”" {
		t.Errorf("%q %q", r.Title, r.Notes)
	}
	if !wall.seen {
		t.Error("what was read counts as unread")
	}
	if r := robin.Does(`/coach seen`); r.Title != "No coach has looked at your things" {
		t.Errorf("%q", r.Title)
	}
	kim.Does(`/coach students member:robin`)
	if r := robin.Does(`/coach seen`); r.Title != "Coaches looked 1 time" || r.Text != "16 May 09:00: kim looked at Blue hatch: clicks, log and feel" {
		t.Errorf("%q %q", r.Title, r.Text)
	}
}

// A coach who has left for good is not named.
func TestLooksOfACoachWhoHasLeft(t *testing.T) {
	wall, _, robin := newPitwall(t)
	wall.looks = []tuning.Look{{At: bottest.Morning, What: "Blue hatch: clicks, log and feel"}}
	if r := robin.Does(`/coach seen`); r.Text != "16 May 09:00: A coach who has left looked at Blue hatch: clicks, log and feel" {
		t.Errorf("%q", r.Text)
	}
}
