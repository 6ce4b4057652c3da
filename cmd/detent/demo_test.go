package main

import (
	"strings"
	"testing"
)

func TestDemoPlaysTheDay(t *testing.T) {
	out, errs, code := execute(t, "demo")
	if code != exitAnswered || errs != "" {
		t.Fatalf("status %d, %s", code, errs)
	}
	for _, words := range []string{
		"Start Blue hatch at", "Rear rebound 3 stiffer, both sides: 16 → 13 from hard", "Already noted",
		"did you mean symptom", "Kim suggests for Blue hatch", "Taken back:", "1 car, 1 answer in",
		"Your own order: front rebound helped 1 of 1 time, about half a mark better.", "Learned on Blue hatch: 3 remedies", "Blue hatch in 2026: 8 changes, 4 runs noted, 1 event",
	} {
		if !strings.Contains(out, words) {
			t.Errorf("the day lacks %q", words)
		}
	}
	if n := strings.Count(out, "I do not know"); n != 1 {
		t.Errorf("%d lines are not known, want the one slip", n)
	}
}
