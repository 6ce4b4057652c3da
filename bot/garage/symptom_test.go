package garage_test

import (
	"strings"
	"testing"

	"detent/bot/say"
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
	if len(r.Remedies) != len(given.Remedies) || !strings.HasPrefix(r.Title, "Go to the wet start, ") || len(r.First) == 0 {
		t.Errorf("%q with %d remedies and the checks %q", r.Title, len(r.Remedies), r.First)
	}
	robin.Does(`/symptom what:packs-down axle:rear weather:dry`)
	if c := box.given[1].Advice.Complaint; c.Axle == nil || *c.Axle != tuning.Rear || c.Weather != tuning.Dry {
		t.Errorf("judged was %+v", c)
	}
	robin.Refused(tuning.Invalid, "what cannot be \"sinks\"", `/symptom what:sinks`)
}

// At an event of either weather it is dry until somebody says otherwise.
func TestSymptomInEitherWeather(t *testing.T) {
	box, robin := newToolbox(t)
	box.event = tuning.Event{ID: 7, Weather: tuning.Either}
	robin.Does(`/symptom what:push where:exit`)
	if c := box.given[0].Advice.Complaint; c.Weather != tuning.Dry {
		t.Errorf("judged was %+v", c)
	}
	robin.Refused(tuning.Invalid, "weather cannot be", `/symptom what:push weather:either`)
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

// A fault replaces the answer: nothing to turn, check or choose stands beside it.
func TestAFaultReplacesTheAnswer(t *testing.T) {
	_, robin := newToolbox(t)
	robin.Does(`/feel grip:4 notes:"a knock from the rear left"`)
	r := robin.Does(`/symptom what:understeer`)
	if !strings.Contains(r.Title, `"knock": stop and have the car inspected`) || !strings.HasSuffix(r.Text, "with /feel.") {
		t.Errorf("%q, %q", r.Title, r.Text)
	}
	m := r.Message()
	if len(r.Remedies)+len(r.First)+len(m.Table) > 0 || m.Line != "" || len(r.Actions) != 1 || r.Actions[0].Label != "How did it feel" {
		t.Errorf("beside it: %q, %q, %+v", r.First, m.Words(), r.Actions)
	}
	if len(r.Cautions) != 1 || r.Cautions[0] != say.Caution(tuning.Broken) {
		t.Errorf("the cautions are %q", r.Cautions)
	}
}

// A change of every adjuster is listed by its table, not by its heading.
func TestTheTableListsAWholeStart(t *testing.T) {
	box, robin := newToolbox(t)
	box.setting[tuning.RL][tuning.Rebound] = 29
	for c := range box.setting {
		box.setting[c][tuning.Bump] += 3
	}
	r := robin.Does(`/symptom what:nervous`)
	if r.Title != "Back to the start, as the table shows" || len(r.Message().Table) == 0 {
		t.Errorf("%q", r.Message().Words())
	}
}

func TestWhatNoClickAnswers(t *testing.T) {
	_, robin := newToolbox(t)
	if r := robin.Does(`/symptom what:one-sided`); !strings.HasPrefix(r.Title, "Check the loaded side first") || strings.HasSuffix(r.Text, " ") {
		t.Errorf("%q, %q", r.Title, r.Text)
	}
	if r := robin.Does(`/symptom what:bottoms axle:front`); !strings.Contains(r.Title, " first. Then: front bump ") {
		t.Errorf("%q", r.Title)
	}
}
