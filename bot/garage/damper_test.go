package garage_test

import (
	"strings"
	"testing"

	"detent/tuning"
)

func TestFitDampers(t *testing.T) {
	box, robin := newToolbox(t)
	robin.Does(`/damper fit axle:both ways:four clicks:12 high-bump:20 count:soft`)
	for axle, d := range box.cars[0].Dampers {
		want := tuning.Damper{Ways: 4, Count: tuning.FromSoft}
		want.Range[tuning.LowBump], want.Range[tuning.HighBump], want.Range[tuning.LowRebound], want.Range[tuning.HighRebound] = 12, 20, 12, 12
		if d != want {
			t.Errorf("%s: %+v", tuning.Axle(axle), d)
		}
	}
	robin.Does(`/damper fit axle:rear ways:one clicks:7 count:hard`)
	if d := box.cars[0].Dampers[tuning.Rear]; d.Ways != 1 || d.Moves != tuning.MovesRebound || d.Range[tuning.Rebound] != 7 {
		t.Errorf("%+v", d)
	}
	if box.cars[0].Dampers[tuning.Front].Ways != 4 {
		t.Error("the front was fitted too")
	}
	robin.Refused(tuning.Invalid, "How many clicks", `/damper fit axle:rear ways:two count:hard`)
	box.cars[0].Dampers[tuning.Front] = tuning.Damper{}
	robin.Refused(tuning.Invalid, "Tell me the front dampers first", `/damper curve axle:front file:a.csv`)
}

// Each answer carries the next question, to the start.
func TestDampersAreAskedFor(t *testing.T) {
	box, robin := newToolbox(t)
	box.cars[0].Dampers = [tuning.Axles]tuning.Damper{}
	press := func(line, label, asks string) string {
		t.Helper()
		r := robin.Ask(line)
		if r.Problem == nil || r.Problem.Kind != tuning.Invalid || r.Title != asks || len(r.Remedies) > 0 {
			t.Fatalf("%s: %q (%+v)", line, r.Title, r.Problem)
		}
		return button(t, r, label)
	}
	line := press(`/baseline`, "Dampers", "I do not know the front dampers of Blue hatch yet: use /damper fit axle:front, with ways, clicks and the stop you count from.")
	line = press(line, "One-way", "How many ways do the dampers adjust?")
	if other := button(t, robin.Ask(line), "Another number"); other != "/damper fit axle:both ways:one clicks:? car:#1" {
		t.Errorf("another number asks %s", other)
	}
	line = press(line, "12", "How many clicks from stop to stop?")
	line = press(line, "Bump and rebound together", "What does the single adjuster move?")
	line = press(line, "From full soft", "Which stop do you count from?")
	if r := robin.Does(line); !strings.HasPrefix(r.Title, "Start Blue hatch at") || len(r.Corners) != 4 {
		t.Errorf("%q", r.Title)
	}
	if d := box.cars[0].Dampers[tuning.Rear]; d.Moves != tuning.MovesBoth || d.Range[tuning.Rebound] != 12 || d.Count != tuning.FromSoft {
		t.Errorf("%+v", d)
	}
	box.cars[0].Dampers[tuning.Rear] = tuning.Damper{}
	if got := button(t, robin.Ask(`/clicks show`), "Dampers"); got != "/damper fit axle:rear car:#1" {
		t.Errorf("where the rear is missing it asks %s", got)
	}
}
