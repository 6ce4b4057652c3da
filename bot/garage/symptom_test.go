package garage_test

import (
	"strings"
	"testing"

	"detent/tuning"
)

func TestSymptom(t *testing.T) {
	box, robin := newToolbox(t)
	box.event = tuning.Event{ID: 7, Weather: tuning.Wet}
	r := robin.Does(`/symptom what:push where:exit`)
	given := box.given[0].Advice
	if given.Complaint != (tuning.Complaint{What: tuning.Understeer, Where: tuning.Exit, Weather: tuning.Wet}) || given.Car != 1 {
		t.Errorf("judged was %+v", given.Complaint)
	}
	if len(r.Remedies) != len(given.Remedies) || r.Title != r.Remedies[0].Say || len(r.First) == 0 {
		t.Errorf("%q with %d remedies and the checks %q", r.Title, len(r.Remedies), r.First)
	}
	robin.Does(`/symptom what:packs-down axle:rear weather:dry`)
	if c := box.given[1].Advice.Complaint; c.Axle == nil || *c.Axle != tuning.Rear || c.Weather != tuning.Dry {
		t.Errorf("judged was %+v", c)
	}
	robin.Refused(tuning.Invalid, "what cannot be \"sinks\"", `/symptom what:sinks`)
}

// What is missing is asked for with buttons; where in the corner is taken as on
// entry, and can be changed at a press.
func TestSymptomAsks(t *testing.T) {
	box, robin := newToolbox(t)
	what := robin.Ask(`/symptom`)
	if what.Problem == nil || what.Problem.Kind != tuning.Invalid || len(what.Actions) != len(tuning.Whats) {
		t.Fatalf("%+v", what)
	}
	end := robin.Ask(button(t, what, "Sinks lower over a run of bumps"))
	if end.Problem == nil || end.Title != "At which end?" || len(end.Remedies) > 0 {
		t.Fatalf("%q, %+v", end.Title, end.Problem)
	}
	robin.Does(button(t, end, "Rear"))
	if c := box.given[0].Advice.Complaint; c.What != tuning.PacksDown || c.Axle == nil || *c.Axle != tuning.Rear {
		t.Errorf("%+v", c)
	}
	entry := robin.Does(`/symptom what:understeer`)
	robin.Does(button(t, entry, "Mid"))
	robin.Does(button(t, entry, "Exit"))
	for i, want := range []tuning.Where{tuning.Entry, tuning.Mid, tuning.Exit} {
		if got := box.given[1+i].Advice.Complaint.Where; got != want {
			t.Errorf("answered is %q, want %q", got, want)
		}
	}
}

// One press ends a difference between left and right that a remedy would keep.
func TestSidesAreMadeEqual(t *testing.T) {
	box, robin := newToolbox(t)
	box.setting[tuning.FL][tuning.Rebound] = 20
	advice := robin.Does(`/symptom what:understeer where:entry`)
	for _, a := range advice.Actions {
		if strings.HasPrefix(a.Label, "Make ") {
			robin.Does(a.Line())
			if at := box.setting; at[tuning.FL] != at[tuning.FR] || at[tuning.FL][tuning.Rebound] == 20 {
				t.Errorf("it stands at %v", at)
			}
			if c := box.history.Changes[0]; c.Corrects() || c.Reason != tuning.ByHand {
				t.Errorf("recorded is %+v", c)
			}
			return
		}
	}
	t.Errorf("no button makes the sides equal: %+v", advice.Actions)
}
