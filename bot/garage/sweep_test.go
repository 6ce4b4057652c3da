package garage_test

import (
	"strings"
	"testing"

	"detent/tuning"
)

func TestSweep(t *testing.T) {
	box, robin := newToolbox(t)
	robin.Refused(tuning.NotFound, "begin one with /sweep start", `/sweep run hop:no`)
	begun := robin.Does(`/sweep start`)
	robin.Refused(tuning.Conflict, "under way", `/sweep start`)
	start := box.setting
	press := button(t, begun, "No hop")
	robin.Does(press)
	if box.setting[tuning.FL][tuning.Bump] <= start[tuning.FL][tuning.Bump] || box.setting[tuning.FL][tuning.Rebound] != start[tuning.FL][tuning.Rebound] {
		t.Errorf("from %v it went to %v", start, box.setting)
	}
	if again := robin.Does(press); again.Title != "Run 1 is noted already" || len(box.search.Runs) != 1 {
		t.Errorf("pressed again: %q, %d runs", again.Title, len(box.search.Runs))
	}
	robin.Refused(tuning.Invalid, "The next run is number 2", `/sweep run hop:no run:4`)
	hopped := robin.Does(`/sweep run hop:yes grip:6`)
	if box.search.Why != tuning.EndHop || box.search.Runs[1].Grip != 6 || !strings.Contains(hopped.Text, "The search is over") {
		t.Errorf("the search ended as %q: %q", box.search.Why, hopped.Text)
	}
	robin.Does(`/sweep start weather:wet`)
	if r := robin.Does(`/sweep stop weather:wet`); r.Title != "Search ended after 0 runs" || box.search.Why != tuning.EndDriver {
		t.Errorf("%q, %q", r.Title, box.search.Why)
	}
}
