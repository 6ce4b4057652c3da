package garage_test

import (
	"strings"
	"testing"

	"detent/bot/bottest"
	"detent/tuning"
)

func TestLog(t *testing.T) {
	_, robin := newToolbox(t)
	if r := robin.Does(`/log`); r.Text != "Nothing changed and nothing noted yet." {
		t.Errorf("%q", r.Text)
	}
	for _, to := range []string{"10", "11", "12"} {
		robin.Does(`/clicks set at:front adjuster:bump turned:yes to:` + to)
	}
	r := robin.Does(`/log`)
	if lines := strings.Split(r.Text, "\n"); len(lines) != 2 || !strings.Contains(lines[0], "11 → 12 from hard (by hand)") {
		t.Errorf("newest first it is\n%s", r.Text)
	}
	robin.Refused(tuning.NotFound, "has no page 2", button(t, r, "Older"))
}

func TestLogTellsHowItFelt(t *testing.T) {
	box, robin := newToolbox(t)
	box.notes = []tuning.CarNote{{At: bottest.Morning, Person: "robin", What: tuning.AboutTyres, Text: "new set"}}
	robin.Does(`/feel grip:7 exit:-1 lap:1:42.6 pressures:2,1 notes:"turns in now"`)
	r := robin.Does(`/log`)
	if r.Text != "16 May 09:00: tyres: new set\n16 May 09:00: grip 7, exit pushes wide 1, lap 1:42.600, 2.1 bar hot, “turns in now”" {
		t.Errorf("%s", r.Text)
	}
	if ask := button(t, r, "Note pressures"); ask != "/note what:pressures car:#1" {
		t.Errorf("it asks %s", ask)
	}
}
