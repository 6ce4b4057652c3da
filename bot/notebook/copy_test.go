package notebook_test

import (
	"strings"
	"testing"

	"detent/bot/bottest"
	"detent/tuning"
)

func TestCopyClicks(t *testing.T) {
	box, robin := newShelf(t)
	box.history.LastAdvice.At = bottest.Morning
	r := robin.Does(`/clicks copy from:"Blue hatch" car:"Red coupe"`)
	// 11 and 14 of 30 from soft, on 16 clicks.
	if at, err := box.setting[2].Apply(box.advice[0].Remedies[0].Moves); err != nil || at[tuning.FL][tuning.Bump] != 6 || at[tuning.RR][tuning.Rebound] != 7 {
		t.Errorf("it goes to %v, %v", at, err)
	}
	if !strings.HasPrefix(r.Title, "As on Blue hatch: ") || !strings.HasPrefix(r.Text, "Red coupe: the same part of each range. Another car may want otherwise.\n") {
		t.Errorf("%q %q", r.Title, r.Text)
	}
	if r.View.Line != "Driven at the front there, at the rear here: expect another balance." || r.Actions[0].Line() != "/apply advice:1 remedy:1" {
		t.Errorf("%q %+v", r.View.Line, r.Actions)
	}
	if a := box.advice[0]; a.Car != 2 || a.Remedies[0].Of != 1 || a.Remedies[0].Reason() != tuning.ByCopying || strings.Count(string(a.Remedies[0].Why), "rounded to") != 2 {
		t.Errorf("%+v", a)
	}
	box.cars[0].Retired, box.cars[0].Main, box.cars[1].Main, box.cars[1].Drive = true, false, true, tuning.FrontDrive // from a car of before, and alike
	box.fit(t, 1, 30)
	if r := robin.Does(`/clicks copy from:"Blue hatch"`); !strings.Contains(r.Title, "stands there already") {
		t.Errorf("%q", r.Title)
	}
	box.history.Unrecorded = true
	if r := robin.Does(`/clicks copy from:"Blue hatch"`); !strings.HasPrefix(r.View.Line, "Nobody has said where the clicks of the other car stand") {
		t.Errorf("%q", r.View.Line)
	}
}

func TestClicksThatCannotBeCopied(t *testing.T) {
	box, robin := newShelf(t)
	refused := func(line, say, want, press string) {
		t.Helper()
		r := robin.Ask(line)
		if r.Problem == nil || r.Title != say || labels(r) != want || r.Actions[0].Line() != press {
			t.Errorf("%s: %q, %q %+v", line, r.Title, labels(r), r.Actions)
		}
	}
	refused(`/clicks copy`, "Which car do the clicks come from?", "Red coupe", "/clicks copy from:#2 car:#1")
	refused(`/clicks copy from:"Blue hatch"`, "Blue hatch cannot be copied to itself: which car takes its clicks?", "Red coupe", "/clicks copy from:#1 car:#2")
	refused(`/clicks copy from:"Red cup"`, `You have no car called "Red cup" (did you mean Red coupe?): /car list shows the names.`, "Red coupe", "/clicks copy from:#2 car:#1")
	box.cars[1].Dampers = [tuning.Axles]tuning.Damper{}
	for _, line := range []string{`/clicks copy from:"Red coupe"`, `/clicks copy from:"Blue hatch" car:"Red coupe"`} {
		refused(line, "I do not know the front dampers of Red coupe yet: use /damper fit axle:front, with ways, clicks and the stop you count from.", "Dampers", "/damper fit axle:both car:#2")
	}
	box.history.LastFeel = &tuning.Feel{Notes: "it leaks oil"}
	robin.Refused(tuning.Conflict, "no clicks until it has been inspected", `/clicks copy from:"Red coupe"`)
	box.history.LastFeel, box.cars = nil, box.cars[:1]
	refused(`/clicks copy from:"Red coupe"`, "You have no car here but Blue hatch to copy from: add one.", "Add a car", "/car add")
	if len(box.advice) != 0 {
		t.Errorf("%d advices are given", len(box.advice))
	}
}
