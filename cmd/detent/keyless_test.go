package main

import (
	"fmt"
	"strings"
	"testing"
)

// A remedy that is no row of the table has no key, so nothing is learned of it
// and it keeps its place, though the car has learned of the rows beside it.
func TestWhatHasNoKeyHasNothingLearned(t *testing.T) {
	p := newPits(t)
	for i, tt := range []struct {
		name   string
		script []string
		keyed  int // of the remedies, behind one that has no key
	}{
		{"undo", []string{pushes, `apply 2`, better, pushes, `apply 1`, `/feel grip:6 better:no`, pushes}, 2},
		{"half-back", []string{pushes, `apply 1`, better, `/symptom what:oversteer where:entry`}, 2},
		{"baseline", []string{`/clicks set at:all adjuster:rebound to:4`, pushes, `apply 3`, better, pushes}, 2},
		{"the start against a nervous car", []string{`/clicks set at:all adjuster:bump to:2`, `/symptom what:nervous`}, 0},
		{"wet start", []string{pushes, `apply 1`, better, `/undo`, pushes + " weather:wet"}, 2},
	} {
		who := fmt.Sprint("Driver", i)
		p.hatch(who)
		reply := p.plays(who, tt.script...)
		if len(reply.Remedies) != tt.keyed+1 {
			t.Errorf("%s: %d remedies, want %d", tt.name, len(reply.Remedies), tt.keyed+1)
			continue
		}
		if l := reply.Remedies[0].Learned; l != nil {
			t.Errorf("%s: learned of it is %+v", tt.name, l)
		}
		for _, r := range reply.Remedies[1:] {
			if r.Learned == nil {
				t.Errorf("%s: nothing is learned of %q", tt.name, r.Why)
			}
		}
	}
}

// Making two sides equal is offered beside the remedies, and has nothing learned
// under Why either.
func TestMakingEqualHasNothingLearned(t *testing.T) {
	p := newPits(t)
	p.hatch("Robin")
	reply := p.plays("Robin", pushes, `apply 1`, better, `/undo`, `/clicks set at:RL adjuster:rebound to:14`, pushes)
	_, equal, _ := strings.Cut(action(t, reply, "Make them equal"), "/apply ")
	why := p.plays("Robin", "/why "+equal)
	if len(why.Remedies) != 1 || why.Remedies[0].Learned != nil {
		t.Errorf("it explains %+v", why.Remedies)
	}
}
