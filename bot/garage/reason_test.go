package garage_test

import (
	"testing"

	"detent/bot/bottest"
	"detent/tuning"
)

// What a coach wrote or suggested is the line of an answer until it was read,
// where nothing weightier is to say.
func TestUnreadIsTheLine(t *testing.T) {
	box, robin := newToolbox(t)
	behind := tuning.Occasion{At: bottest.Morning}
	box.history.LastAnswer, box.history.LastAdvice = behind, behind // of the checks
	for _, c := range []struct {
		unseen tuning.Unseen
		line   string
	}{
		{tuning.Unseen{}, ""},
		{tuning.Unseen{CoachName: "Kim", At: bottest.Morning}, "Kim left you a note on 16 May."},
		{tuning.Unseen{CoachName: "Kim", At: bottest.Morning, Car: "Blue hatch"}, "Kim suggested a change of Blue hatch on 16 May."},
	} {
		box.unseen = c.unseen
		for _, line := range []string{`/symptom what:understeer where:entry`, `/baseline`} {
			r := robin.Does(line)
			if got := r.View.Line; c.line != "" && got != c.line || c.line == "" && got != "" && line == `/baseline` {
				t.Errorf("%s with %+v: the line is %q", line, c.unseen, got)
			}
			if c.line != "" && button(t, r, "Read it") != "/coach notes" {
				t.Errorf("%s: it cannot be read", line)
			}
		}
	}
	behind.At = bottest.Morning.AddDate(0, 0, -1)
	box.history.LastAnswer, box.history.LastAdvice = behind, behind
	if r := robin.Does(`/baseline`); r.View.Line != "Checks first today: pressures, tyres, leaks." {
		t.Errorf("before the checks of the day the line is %q", r.View.Line)
	}
	box.setting[tuning.FL][tuning.Rebound] = 20
	if r := robin.Does(`/symptom what:understeer where:entry`); r.View.Line == "" || r.View.Line == "Kim suggested a change of Blue hatch on 16 May." {
		t.Errorf("with unequal sides the line is %q", r.View.Line)
	}
}
