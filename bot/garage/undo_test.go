package garage_test

import (
	"strings"
	"testing"

	"detent/tuning"
)

func TestUndo(t *testing.T) {
	box, robin := newToolbox(t)
	start := box.setting
	robin.Refused(tuning.Conflict, "no change of Blue hatch that can be taken back", `/undo`)
	set := robin.Does(`/clicks set at:front adjuster:bump to:10`)
	press := button(t, set, "Take it back")
	back := robin.Does(press)
	if !strings.HasPrefix(back.Title, "Taken back: ") || box.setting != start {
		t.Errorf("%q, it stands at %v", back.Title, box.setting)
	}
	if !strings.Contains(back.Text, "nothing counts as turned") { // the record was corrected, no adjuster touched
		t.Errorf("after a correction: %q", back.Text)
	}
	robin.Does(`/clicks set at:front adjuster:bump to:10 turned:yes`)
	if back := robin.Does(`/undo`); !strings.Contains(back.Text, "Drive a few laps") {
		t.Errorf("after a turn: %q", back.Text)
	}
	if again := robin.Does(press); !strings.HasPrefix(again.Title, "Already taken back: ") || box.setting != start {
		t.Errorf("pressed again: %q", again.Title)
	}
	robin.Refused(tuning.NotFound, "Change 999999 is none of Blue hatch", `/undo change:999999`)
	robin.Does(`/clicks set at:front adjuster:bump to:11`)
	robin.Does(`/clicks set at:front adjuster:bump to:12`)
	robin.Refused(tuning.Conflict, "Other changes of Blue hatch have come after", `/undo change:5`)
}
