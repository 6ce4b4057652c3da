package main

import (
	"strings"
	"testing"
)

func TestCoaching(t *testing.T) {
	p := newPaddock(t)
	robin := p.as("--as", "Robin").blueHatch()
	p.as("--as", "Sam").does(`/car list`, `/me set units:metric`)
	kim := p.as("--as", "Kim", "--role", "coach")
	kim.does(`/me set units:metric`)

	kim.refuses("forbidden", "not your student", `/coach students member:Robin`)
	robin.refuses("forbidden", "coaches", `/coach ask member:Sam`)
	kim.refuses("invalid", "yourself", `/coach ask member:Kim`)
	kim.refuses("not-found", "Nobody", `/coach ask member:Nobody`)
	kim.does(`/coach ask member:robin`)
	kim.refuses("conflict", "waits", `/coach ask member:Robin`)
	kim.refuses("forbidden", "not your student", `/coach note member:Robin text:hello`)
	robin.refuses("not-found", "not offered", `/coach accept member:Sam`)
	robin.does(`/coach accept member:Kim`)
	robin.refuses("conflict", "already", `/coach accept member:Kim`)

	look := kim.does(`/coach students member:Robin`)
	if len(look.Corners) != 8 || !strings.Contains(look.Title, "Blue hatch") {
		t.Errorf("the coach sees %q %+v", look.Title, look.Corners)
	}
	kim.does(`/coach note member:Robin text:"Brake earlier, then look again."`)
	kim.refuses("invalid", "past the stop", `/coach suggest member:Robin at:rear adjuster:rebound to:31 why:"more"`)
	kim.refuses("invalid", "stands there", `/coach suggest member:Robin at:rear adjuster:rebound to:16 why:"same"`)
	kim.does(`/coach suggest member:Robin at:rear adjuster:rebound to:14 why:"it pushes on the way in"`)
	kim.does(`/coach suggest member:Robin at:front adjuster:bump to:20 why:"or this"`)

	notes := robin.does(`/coach notes`)
	if !strings.Contains(notes.Text, "Rear rebound 2 stiffer, both sides: 16 → 14 from hard. “it pushes") || !strings.Contains(strings.Join(notes.Notes, ""), "Brake earlier") {
		t.Fatalf("the student reads %q %q", notes.Text, notes.Notes)
	}
	robin.does(notes.Actions[1].Ask) // decline the newer
	robin.refuses("not-found", "no suggestion", notes.Actions[1].Ask)
	if done := robin.does(notes.Actions[2].Ask); at(t, done.Corners, "RL", "rebound").To != 16 {
		t.Errorf("applied: %+v", done.Corners)
	}
	if left := robin.does(`/coach notes`); !strings.Contains(left.Text, "No suggestion") {
		t.Errorf("still waiting: %q", left.Text)
	}

	robin.does(`/feel grip:4 better:no`)
	week := kim.does(`/coach week`)
	if !strings.Contains(week.Text, "Robin: Blue hatch, 1 change, last: Rear rebound 2 stiffer, both sides: 16 → 14 from hard, which made it worse") {
		t.Errorf("the coach's week: %q", week.Text)
	}
	seen := robin.does(`/coach seen`)
	if strings.Count(seen.Text, "Kim looked") != 6 {
		t.Errorf("the audit lists %q", seen.Text)
	}
	robin.does(`/coach end member:Kim`)
	kim.refuses("forbidden", "not your student", `/coach students member:Robin`)
	robin.does(`/me erase sure:yes`)
	if list := kim.does(`/coach students`); list.Title != "No students yet" {
		t.Errorf("after the student left: %q", list.Text)
	}
}

// A line that is sent again under its id shows no student once the coaching has
// ended. A student still reads that a coach looked, after that coach has left.
func TestWhatACoachSawIsNotShownAgain(t *testing.T) {
	p := newPaddock(t)
	robin := p.as("--as", "Robin").blueHatch()
	kim := p.as("--as", "Kim", "--role", "coach")
	kim.does(`/me set units:metric`, `/coach ask member:Robin`)
	robin.does(`/coach accept member:Kim`)
	look := kim.as("--id", "look-1")
	first := look.does(`/coach students member:Robin`)
	if again := look.does(`/coach students member:Robin`); again.Title != first.Title {
		t.Errorf("while it holds the same id is answered %q", again.Title)
	}
	robin.does(`/coach end member:Kim`)
	look.refuses("forbidden", "no longer coach", `/coach students member:Robin`)
	kim.does(`/me erase sure:yes`)
	if seen := robin.does(`/coach seen`); !strings.Contains(seen.Text, "A coach who has left looked at Blue hatch") {
		t.Errorf("after the coach left: %q", seen.Text)
	}
}
