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

// Why tells where a setting came from and what was rounded, and its figures are
// those of that setting.
func TestWhyWhatWasBrought(t *testing.T) {
	box, robin := newToolbox(t)
	box.brings(tuning.LoadKept, 20, "You saved these clicks. Front rebound: rounded to 10.")
	r := robin.Does(`/why`)
	for _, want := range []string{"You saved these clicks.", "Watch for other tyres.", "Front rebound: rounded to 10."} {
		if !strings.Contains(r.Text, want) {
			t.Errorf("%q is not in %q", want, r.Text)
		}
	}
	if strings.Contains(r.Text, "Starts soft") {
		t.Errorf("it tells the rules of a start: %q", r.Text)
	}
	r = robin.Does(`/why part:figures`)
	if r.Title != "Figures of these clicks on Blue hatch" || strings.Contains(strings.Join(r.Notes, " "), "start stands") {
		t.Errorf("%q %q", r.Title, r.Notes)
	}
}

// A start where the car stands already turns nothing and has nothing to watch for.
func TestWhyOfTheStartWhereItStands(t *testing.T) {
	_, robin := newToolbox(t)
	robin.Does(`/baseline`)
	if r := robin.Does(`/why part:answer`); r.Title != "Back to the start" || r.Text != "Blue hatch." {
		t.Errorf("%q: %q", r.Title, r.Text)
	}
}
