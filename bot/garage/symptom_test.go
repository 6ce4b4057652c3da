package garage_test

import (
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
