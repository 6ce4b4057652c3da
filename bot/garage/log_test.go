package garage_test

import (
	"strings"
	"testing"

	"detent/tuning"
)

func TestLog(t *testing.T) {
	_, robin := newToolbox(t)
	if r := robin.Does(`/log`); r.Text != "Nothing changed yet." {
		t.Errorf("%q", r.Text)
	}
	for _, to := range []string{"10", "11", "12"} {
		robin.Does(`/clicks set at:front adjuster:bump to:` + to)
	}
	r := robin.Does(`/log`)
	if lines := strings.Split(r.Text, "\n"); len(lines) != 2 || !strings.Contains(lines[0], "11 → 12 from hard (by hand)") {
		t.Errorf("newest first it is\n%s", r.Text)
	}
	robin.Refused(tuning.NotFound, "has no page 2", button(t, r, "Older"))
}
