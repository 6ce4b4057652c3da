package garage_test

import (
	"strings"
	"testing"
	"time"

	"detent/bot/bottest"
	"detent/tuning"
)

func TestFeelKeepsWhatIsSaid(t *testing.T) {
	box, robin := newToolbox(t)
	reply := robin.Does(`/feel grip:7 entry:0 exit:-2 hop:yes better:same lap:1:42.6 notes:" turns in now "`)
	f := box.feels[0]
	if f.Grip != 7 || f.Entry == nil || *f.Entry != 0 || f.Mid != nil || f.Exit == nil || *f.Exit != -2 || f.Hop == nil || !*f.Hop ||
		f.Better != tuning.BetterSame || f.Lap != 102600*time.Millisecond || f.Notes != "turns in now" || f.Person != "robin" || !f.At.Equal(bottest.Morning) {
		t.Errorf("kept is %+v", f)
	}
	if len(reply.First) == 0 {
		t.Error("the same as before, and no checks come first")
	}
	if cure := button(t, reply, "Cure the understeer on exit"); cure != "/symptom what:understeer where:exit car:#1" {
		t.Errorf("the cure asks %s", cure)
	}
	button(t, reply, "Cure the hop")
}

// What comes next stands first: one more step, leave it, or take it back.
func TestFeelOffersTheNextStep(t *testing.T) {
	_, robin := newToolbox(t)
	if r := robin.Does(`/feel grip:5 better:no`); len(r.Actions) != 0 || !strings.Contains(r.Notes[0], "no change") {
		t.Errorf("before any change: %q, %+v", r.Notes, r.Actions)
	}
	robin.Does(`/clicks set at:front adjuster:bump to:10`)
	if r := robin.Does(`/feel grip:5 better:no`); len(r.Actions) != 0 {
		t.Errorf("after a correction of the record alone: %+v", r.Actions)
	}
	robin.Does(robin.Does(`/symptom what:understeer where:exit weather:wet`).Actions[0].Line())
	better := robin.Does(`/feel grip:7 better:yes`)
	if more := button(t, better, "One more step"); more != "/symptom what:understeer where:exit weather:wet car:#1" || better.Actions[0].Label != "One more step" {
		t.Errorf("it asks %s, first %s", more, better.Actions[0].Label)
	}
	robin.Does(button(t, better, "Leave it"))
	worse := robin.Does(`/feel grip:5 better:no`)
	if back := button(t, worse, "Take it back"); back != "/undo change:2 car:#1" || worse.Actions[0].Label != "Take it back" || worse.Notes[0] != "Worse. Take the last change back?" {
		t.Errorf("it asks %s: %q", back, worse.Notes)
	}
}

func TestAFaultIsNoSetUp(t *testing.T) {
	_, robin := newToolbox(t)
	if r := robin.Does(`/feel grip:4 exit:2 notes:"it leaks oil"`); !strings.HasPrefix(r.Title, "Stop") || len(r.Actions) != 0 {
		t.Errorf("%q offers %+v", r.Title, r.Actions)
	}
	robin.Refused(tuning.Conflict, "inspected", `/baseline`)
}

func TestFeelAtAnEvent(t *testing.T) {
	box, robin := newToolbox(t)
	box.in = []tuning.Event{{ID: 7, Name: "Spring day", Starts: bottest.Morning.Add(-time.Hour)}, {ID: 8, Name: "Late day", Starts: bottest.Morning.AddDate(0, 1, 0)}}
	if r := robin.Does(`/feel grip:7 event:#7`); box.feels[0].Event != 7 || r.Notes[len(r.Notes)-1] != "It counts as your answer for Spring day." || !strings.HasSuffix(r.Message().Text, "\nIt counts as your answer for Spring day.") {
		t.Errorf("it is kept for %d, notes %q", box.feels[0].Event, r.Notes)
	}
	robin.Refused(tuning.Invalid, "once you have driven", `/feel grip:7 event:"Late day"`)
	box.cars = append(box.cars, tuning.Car{ID: 2, Name: "Grey coupe"})
	robin.Refused(tuning.NotFound, "Grey coupe is not entered in Spring day", `/feel grip:7 car:"Grey coupe" event:"Spring day"`)
	if len(box.feels) != 1 {
		t.Errorf("%d feels are kept", len(box.feels))
	}
}
