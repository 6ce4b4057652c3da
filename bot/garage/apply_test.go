package garage_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"detent/bot"
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

// An advice whose clicks have moved since is refused with a fresh one, and with
// what moved.
func TestApplyIsOutOfDate(t *testing.T) {
	_, robin := newToolbox(t)
	robin.Does(`/symptom what:oversteer where:exit`)
	robin.Does(`/clicks set at:FL adjuster:bump to:10`)
	if reply := robin.Ask(`/apply advice:1`); !strings.HasPrefix(reply.Title, "Advice 1 is out of date: the clicks have moved since (FL bump ") {
		t.Errorf("%q", reply.Title)
	}
	box, robin := newToolbox(t)
	robin.Does(`/symptom what:oversteer where:exit`)
	robin.Does(`/clicks set at:all adjuster:bump to:10`)
	reply := robin.Ask(`/apply advice:1`)
	if reply.Problem == nil || reply.Problem.Kind != tuning.Conflict || !strings.HasPrefix(reply.Title, "Advice 1 is out of date: the clicks have moved since") {
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

// brings gives an advice to set the front rebound to a place, as loading saved
// clicks does.
func (b *toolbox) brings(kind tuning.RemedyKind, to int, why string) {
	want := b.setting
	want[tuning.FL][tuning.Rebound], want[tuning.FR][tuning.Rebound] = to, to
	remedy := tuning.Remedy{Kind: kind, Of: 7, Why: tuning.Why(why), Watch: "other tyres", Confidence: tuning.CommonPractice, Moves: b.setting.Across(want, b.cars[0])}
	b.given = append(b.given, tuning.Given{Advice: tuning.Advice{ID: int64(len(b.given) + 1), Remedies: []tuning.Remedy{remedy}}, Setting: b.setting})
}

// What brings a setting from elsewhere is recorded as such. Out of date, it is
// given afresh by the line that it came from.
func TestApplyWhatWasBrought(t *testing.T) {
	for kind, want := range map[tuning.RemedyKind]struct {
		reason tuning.Reason
		line   string
	}{
		tuning.LoadKept: {tuning.ByLoading, "/clicks load name:#7 car:#1"},
		tuning.CopyCar:  {tuning.ByCopying, "/clicks copy from:#7 car:#1"},
	} {
		box, robin := newToolbox(t)
		type lineOptions struct {
			Name string `name:"name" help:"which"`
			From string `name:"from" help:"of which car"`
			bot.CarOption
		}
		for _, name := range []string{"clicks load", "clicks copy"} {
			robin.Commands = append(robin.Commands, bot.Declare(bot.Command{Name: name, Help: "Bring clicks"},
				func(_ context.Context, call bot.Call, _ bot.Book, _ lineOptions) (bot.Reply, error) {
					return bot.Reply{Title: call.Ask.Line.String(), Text: "Afresh."}, nil
				}))
		}
		box.brings(kind, 20, "You saved these clicks.")
		r := robin.Does(`/apply advice:1`)
		if c := box.history.Changes[0]; r.Title != "Noted: Front rebound 9 stiffer, both sides: 19 → 10 from hard" || c.Reason != want.reason || c.Complaint != nil || len(c.Moves) != 8 {
			t.Errorf("%s: %q %+v", kind, r.Title, c)
		}
		if r := robin.Does(`/apply advice:1`); !strings.HasPrefix(r.Title, "Already noted") || len(box.history.Changes) != 1 {
			t.Errorf("%s again: %q", kind, r.Title)
		}
		robin.Does(`/undo`)
		r = robin.Ask(`/apply advice:1`)
		if r.Problem == nil || r.Problem.Kind != tuning.Conflict || !strings.HasPrefix(r.Text, want.line+".\nAfresh.") {
			t.Errorf("%s out of date: %q %q", kind, r.Title, r.Text)
		}
		box.brings(kind, 20, "You saved these clicks.")
		robin.Does(`/clicks set at:front adjuster:rebound to:10`)
		if r := robin.Does(fmt.Sprintf(`/apply advice:%d`, len(box.given))); !strings.HasPrefix(r.Title, "Nothing to turn: Blue hatch stands as ") {
			t.Errorf("%s where it stands: %q", kind, r.Title)
		}
		box.brings(kind, 20, "You saved these clicks.") // confirmed where it stands
		if r := robin.Does(fmt.Sprintf(`/apply advice:%d`, len(box.given))); !strings.HasPrefix(r.Title, "Noted: Blue hatch stands as ") {
			t.Errorf("%s confirmed: %q", kind, r.Title)
		}
	}
}
