package season_test

import (
	"strings"
	"testing"
)

// Whoever enters reads that the organiser may write to them, unless they want
// no messages anyway.
func TestEnteringTellsOfMessages(t *testing.T) {
	year, _, robin := newYear(t)
	const mayWrite = "The organiser may message you about it; /me set messages:off stops that."
	if in := robin.Does(`/event enter`); !strings.Contains(in.Text, mayWrite) {
		t.Errorf("it says %q", in.Text)
	}
	year.Asker.Muted = true
	if in := robin.Does(`/event enter remind:yes`); strings.Contains(in.Text, mayWrite) {
		t.Errorf("muted, it says %q", in.Text)
	}
}
