package garage_test

import (
	"strings"
	"testing"

	"detent/tuning"
)

func TestBaseline(t *testing.T) {
	box, robin := newToolbox(t)
	stands := robin.Does(`/baseline`)
	if !strings.HasPrefix(stands.Title, "Start Blue hatch at front ") || !strings.Contains(stands.Text, "It stands there already.") {
		t.Errorf("%q: %q", stands.Title, stands.Text)
	}
	robin.Does(`/clicks set at:all adjuster:bump to:5`)
	away := robin.Does(`/baseline`)
	robin.Does(button(t, away, "These are set now"))
	if want, err := tuning.Baseline(box.cars[0], tuning.Dry, tuning.DefaultSizes); err != nil || box.setting != want {
		t.Errorf("it stands at %v, want %v", box.setting, want)
	}
	if wet := robin.Does(`/baseline weather:damp`); wet.Title == away.Title {
		t.Errorf("in the wet too: %q", wet.Title)
	}
	box.history.Unrecorded = true
	if r := robin.Does(`/baseline`); !strings.Contains(r.Text, "Go gently to the stop") {
		t.Errorf("%q", r.Text)
	}
}
