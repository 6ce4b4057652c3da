package main

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// A refused request stays refused under its id, whatever has happened since.
// Whoever sends the line again is told the same, and it is not done late.
func TestARefusalOnceAnID(t *testing.T) {
	for _, c := range []struct{ kind, words, line, meanwhile string }{
		{"conflict", "taken back", `/undo`, `/clicks set at:front adjuster:rebound to:10`},
		{"conflict", "that name", `/car add name:"BLUE HATCH" drive:rear engine:mid`, `/car edit name:"Red hatch"`}, // refused by the database
		{"invalid", "no option", `/car edit colour:red`, `/car edit name:"Green hatch"`},
	} {
		p := newPaddock(t).blueHatch()
		first := p.as("--id", "r-1").refuses(c.kind, c.words, c.line)
		p.does(c.meanwhile)
		before := fmt.Sprint(p.does(`/clicks show`), p.does(`/car list`))
		again := p.as("--id", "r-1").refuses(c.kind, c.words, c.line)
		if diff := cmp.Diff(first, again); diff != "" {
			t.Errorf("%s: the same id is answered otherwise: %s", c.line, diff)
		}
		if after := fmt.Sprint(p.does(`/clicks show`), p.does(`/car list`)); after != before {
			t.Errorf("%s: the same id changed something:\n%s\nbefore:\n%s", c.line, after, before)
		}
	}
}

// The same id gets the first reply again, for the same readers, whatever line
// comes with it.
func TestOnceKeepsWhoMayRead(t *testing.T) {
	p := newPaddock(t).blueHatch()
	p.does(`/me set answers:shared`)
	for id, lines := range map[string][2]string{
		"private": {`/clicks set at:front adjuster:rebound to:10`, `/baseline`},
		"public":  {`/baseline`, `/clicks set at:front adjuster:rebound to:12`},
	} {
		first := p.as("--id", id).does(lines[0])
		again := p.as("--id", id).does(lines[1])
		if diff := cmp.Diff(first, again); diff != "" || first.Private != (id == "private") {
			t.Errorf("private %v, and under the same id: %s", first.Private, diff)
		}
	}
}
