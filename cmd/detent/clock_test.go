package main

import (
	"strings"
	"testing"
)

func TestWhatIsNoTime(t *testing.T) {
	for _, text := range []string{"yesterday", "2026-05-16", "10:00", "2026-02-30T10:00:00Z"} {
		_, errs, code := execute(t, "ask", "--at", text, "/help")
		if code != exitWrongUse || !strings.Contains(errs, "is no time: write it like 2026-05-16T10:00:00Z") {
			t.Errorf("--at %s: %d, %q", text, code, errs)
		}
	}
}
