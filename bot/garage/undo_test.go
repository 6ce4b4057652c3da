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
	if back := robin.Does(press); !strings.HasPrefix(back.Title, "Taken back: ") || box.setting != start {
		t.Errorf("%q, it stands at %v", back.Title, box.setting)
	}
	if again := robin.Does(press); !strings.HasPrefix(again.Title, "Already taken back: ") || box.setting != start {
		t.Errorf("pressed again: %q", again.Title)
	}
	robin.Refused(tuning.NotFound, "Change 999999 is none of Blue hatch", `/undo change:999999`)
	robin.Does(`/clicks set at:front adjuster:bump to:11`)
	robin.Does(`/clicks set at:front adjuster:bump to:12`)
	robin.Refused(tuning.Conflict, "Other changes of Blue hatch have come after", `/undo change:3`)
}
