package garage_test

import (
	"strings"
	"testing"

	"detent/tuning"
)

func TestWhy(t *testing.T) {
	box, robin := newToolbox(t)
	advice := robin.Does(`/symptom what:oversteer where:exit`)
	first := robin.Does(`/why advice:1`)
	if first.Title != advice.Remedies[0].Say || !strings.Contains(first.Text, advice.Remedies[0].Why) || len(first.Remedies) != 1 {
		t.Errorf("%q: %q", first.Title, first.Text)
	}
	second := robin.Does(button(t, first, "Try the other"))
	if second.Title != advice.Remedies[1].Say {
		t.Errorf("the second is %q, want %q", second.Title, advice.Remedies[1].Say)
	}
	robin.Does(`/apply advice:1 remedy:2`)
	if r := robin.Does(`/why advice:1 remedy:2`); r.View.Line != "You have applied this one." {
		t.Errorf("%q", r.View.Line)
	}
	if r := robin.Does(`/why advice:1`); !strings.Contains(r.View.Line, "You applied remedy 2 of this advice") {
		t.Errorf("%q", r.View.Line)
	}
	robin.Refused(tuning.Invalid, "name one of them", `/why advice:1 remedy:99`)
	if len(box.history.Changes) != 1 {
		t.Error("asking why changed something")
	}
}
