package garage_test

import (
	"strings"
	"testing"

	"detent/bot"
	"detent/tuning"
)

func TestClicks(t *testing.T) {
	box, robin := newToolbox(t)
	robin.Does(`/clicks set at:FL adjuster:compression to:20`) // 20 from hard is 10 from soft
	if got := box.setting[tuning.FL][tuning.Bump]; got != 10 {
		t.Errorf("it stands at %d from soft", got)
	}
	if shown := robin.Does(`/clicks show`); len(shown.Notes) != 1 || shown.Notes[0] != "Left and right differ at the front: set them equal unless you mean it." {
		t.Errorf("the notes are %q", shown.Notes)
	}
	if again := robin.Does(`/clicks set at:FL adjuster:bump to:20`); again.Title != "It stands there already" || len(box.history.Changes) != 1 {
		t.Errorf("set again: %q", again.Title)
	}
	box.history.Unrecorded = true
	robin.Does(`/clicks set at:FL adjuster:bump to:20`)
	if len(box.history.Changes) != 2 {
		t.Error("where nobody has said where the clicks stand, saying so is not recorded")
	}
	robin.Refused(tuning.Invalid, "", `/clicks set at:FL adjuster:low-bump to:3`)
	box.cars[0].Dampers = [tuning.Axles]tuning.Damper{}
	robin.Refused(tuning.Invalid, "/damper fit", `/clicks show`)
}

// Positions are offered in the member's counting, those nearest to where it
// stands first.
func TestPositionsAreSuggested(t *testing.T) {
	_, robin := newToolbox(t)
	got := robin.Suggests(`/clicks set at:front adjuster:rebound`, "to", "")
	if len(got) != bot.MaxSuggestions || !strings.HasSuffix(got[0].Label, ", as it stands") {
		t.Fatalf("%+v", got)
	}
	stands := robin.Does(`/clicks show`).Corners
	for _, c := range stands {
		if c.Corner == "FL" && c.Adjuster == "rebound" && c.Shown != got[0].Value+" from hard" {
			t.Errorf("it stands %s, first offered is %s", c.Shown, got[0].Value)
		}
	}
	for typed, option := range map[string]string{`/clicks set adjuster:rebound`: "to", `/clicks set at:front adjuster:low-bump`: "to"} {
		if got := robin.Suggests(typed, option, ""); len(got) != 0 {
			t.Errorf("%s offers %+v", typed, got)
		}
	}
	if got := robin.Suggests(`/clicks set`, "at", "f"); len(got) < 3 || got[0].Value != "FL" || got[2].Value != "front" || got[2].Label != "Both front" {
		t.Errorf("corners offered: %+v", got)
	}
}

// To correct the record and to turn are two things: both stand in the log, and
// what was noted can still be said to be turned.
func TestCorrectedOrTurned(t *testing.T) {
	box, robin := newToolbox(t)
	noted := robin.Does(`/clicks set at:front adjuster:rebound to:"14 from soft"`)
	if c := box.history.Changes[0]; !c.Corrects() || !strings.HasPrefix(noted.Title, "Noted: ") || box.setting[tuning.FL][tuning.Rebound] != 14 {
		t.Errorf("%q, %+v", noted.Title, c)
	}
	press := button(t, noted, "I turned it now")
	if turned := robin.Does(press); !strings.HasPrefix(turned.Title, "Turned: ") || box.setting[tuning.FL][tuning.Rebound] != 14 {
		t.Errorf("%q, it stands at %v", turned.Title, box.setting)
	}
	if len(box.history.Changes) != 3 || !box.history.Changes[2].Undone || !box.history.Changes[0].Turned {
		t.Errorf("the log is %+v", box.history.Changes)
	}
	if again := robin.Does(press); again.Title != "It stands there already" || len(box.history.Changes) != 3 {
		t.Errorf("pressed again: %q", again.Title)
	}
	robin.Does(`/clicks set at:front adjuster:rebound to:10 turned:yes`)
	if c := box.history.Changes[0]; c.Corrects() || !c.Turned {
		t.Errorf("%+v", c)
	}
	robin.Refused(tuning.Invalid, `"12 from left" is neither`, `/clicks set at:front adjuster:rebound to:"12 from left"`)
}
