package season_test

import (
	"slices"
	"testing"
)

// Whoever enters reads that the organiser may write to them, unless they want
// no messages anyway.
func TestEnteringTellsOfMessages(t *testing.T) {
	year, _, robin := newYear(t)
	const mayWrite = "The organiser may message you about it; /me set messages:off stops that."
	if in := robin.Does(`/event enter`); !slices.Contains(in.Notes, mayWrite) {
		t.Errorf("notes %q", in.Notes)
	}
	year.Asker.Muted = true
	if in := robin.Does(`/event enter remind:yes`); slices.Contains(in.Notes, mayWrite) {
		t.Errorf("muted, notes %q", in.Notes)
	}
}
