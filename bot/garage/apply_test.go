package garage_test

import (
	"strings"
	"testing"

	"detent/tuning"
)

func TestApplyCountsOnce(t *testing.T) {
	box, robin := newToolbox(t)
	advice := robin.Does(`/symptom what:oversteer where:exit`)
	done := advice.Actions[0].Line()
	first, again := robin.Does(done), robin.Does(done)
	if !strings.HasPrefix(first.Title, "Noted: ") || !strings.HasPrefix(again.Title, "Already noted: ") || len(box.history.Changes) != 1 {
		t.Errorf("%q, then %q, %d changes", first.Title, again.Title, len(box.history.Changes))
	}
	change := box.history.Changes[0]
	if change.Advice != 1 || change.Remedy != 1 || change.Complaint == nil || change.Complaint.What != tuning.Oversteer || change.By != "robin" {
		t.Errorf("recorded is %+v", change)
	}
}

// An advice whose clicks have moved since is refused with a fresh one.
func TestApplyIsOutOfDate(t *testing.T) {
	box, robin := newToolbox(t)
	robin.Does(`/symptom what:oversteer where:exit`)
	robin.Does(`/clicks set at:all adjuster:bump to:10`)
	reply := robin.Ask(`/apply advice:1`)
	if reply.Problem == nil || reply.Problem.Kind != tuning.Conflict || !strings.HasPrefix(reply.Title, "Advice 1 is out of date: the clicks have moved since (") {
		t.Fatalf("%q", reply.Title)
	}
	if len(box.given) != 2 || len(reply.Remedies) == 0 || reply.Remedies[0].Apply != "/apply advice:2 remedy:1" || len(box.history.Changes) != 1 {
		t.Errorf("the fresh answer is %+v", reply.Remedies)
	}
}

func TestApplyRefuses(t *testing.T) {
	box, robin := newToolbox(t)
	robin.Does(`/symptom what:oversteer where:exit`)
	robin.Refused(tuning.NotFound, "no advice 9", `/apply advice:9`)
	robin.Refused(tuning.Invalid, "name one of them", `/apply advice:1 remedy:99`)
	box.history.LastFeel = &tuning.Feel{Notes: "it leaks oil"}
	robin.Refused(tuning.Conflict, "no clicks until it has been inspected", `/apply advice:1`)
	box.history.LastFeel = nil
	box.cars[0].Retired = true
	robin.Refused(tuning.Conflict, "is retired", `/apply advice:1`)
	box.cars[0].Retired = false
	box.given[0].Declined = true
	robin.Refused(tuning.Conflict, "You declined", `/apply advice:1`)
}

// Without a number the newest advice of the main car is meant.
func TestApplyTheNewest(t *testing.T) {
	box, robin := newToolbox(t)
	if r := robin.Ask(`/apply`); r.Problem == nil || r.Problem.Kind != tuning.NotFound || len(r.Actions) == 0 {
		t.Errorf("before any advice: %+v", r)
	}
	robin.Does(`/symptom what:oversteer where:exit`)
	robin.Does(`/symptom what:understeer where:entry`)
	robin.Does(`/why`)
	robin.Does(`/apply`)
	if c := box.history.Changes[0]; c.Advice != 2 || c.Remedy != 1 {
		t.Errorf("recorded is %+v", c)
	}
}
