package notebook_test

import (
	"strings"
	"testing"

	"detent/bot"
	"detent/bot/bottest"
	"detent/tuning"
)

func TestLoadClicks(t *testing.T) {
	box, robin := newShelf(t)
	box.event = tuning.Event{ID: 5, Place: "Windy Hill", Weather: tuning.Dry}
	box.history.LastAdvice = tuning.Occasion{At: bottest.Morning, Event: 5}
	box.today = &tuning.Feel{Grip: 7}
	robin.Does(`/clicks save name:"Dry fast"`)
	saved := box.setting[1]
	if r := robin.Does(`/clicks load name:"dry fast"`); r.Title != "Nothing to turn: Blue hatch stands there already" || len(box.advice) != 0 || strings.Contains(labels(r), "set now") {
		t.Errorf("%q %q", r.Title, labels(r))
	}
	box.turn(1, tuning.Rebound, 5)
	r := robin.Does(`/clicks load name:"dry fast"`)
	if r.Title != "Load “Dry fast”: Front rebound 5 softer, both sides: 14 → 19 from hard" || r.Text != "Blue hatch, saved 16 May 2026.\nWindy Hill, dry: grip 7." || r.View.Line != "" {
		t.Errorf("%q %q %q", r.Title, r.Text, r.View.Line)
	}
	if labels(r) != "These are set now, Compare, Why" || r.Actions[0].Line() != "/apply advice:1 remedy:1" || r.Actions[2].Line() != "/why advice:1 remedy:1" {
		t.Errorf("%+v", r.Actions)
	}
	if len(r.Corners) != 8 || len(bot.Moving(r.Corners)) != 2 || !r.View.Care.Turns {
		t.Errorf("%+v", r.Corners)
	}
	remedy := box.advice[0].Remedies[0]
	if after, err := box.setting[1].Apply(remedy.Moves); err != nil || after != saved || remedy.Kind != tuning.LoadKept || remedy.Of != 1 || remedy.Reason() != tuning.ByLoading || box.advice[0].Complaint.Made() {
		t.Errorf("%+v, %v", remedy, err)
	}
}

// Where nobody has said where the clicks stand, all of them are counted out.
func TestLoadWhereNothingIsConfirmed(t *testing.T) {
	box, robin := newShelf(t)
	box.history.Unrecorded = true
	robin.Does(`/clicks save name:Start`)
	r := robin.Does(`/clicks load name:Start`)
	if r.Title != "Load “Start”: see the table" || !strings.HasPrefix(r.Text, "Blue hatch, saved 16 May 2026. Count each out from the stop.\n") || len(box.advice) != 1 {
		t.Errorf("%q %q", r.Title, r.Text)
	}
	for _, c := range r.View.Moves {
		if c.From != c.To {
			t.Errorf("it is shown as a move: %+v", c)
		}
	}
	if len(r.View.Moves) != 8 || r.View.Line != "Checks first today: pressures, tyres, leaks." || !strings.HasSuffix(labels(r), "Checks") {
		t.Errorf("%d positions, %q, %q", len(r.View.Moves), r.View.Line, labels(r))
	}
}

// On other dampers each adjuster goes to the same part of its range, and each
// rounding is said.
func TestLoadOnOtherDampers(t *testing.T) {
	box, robin := newShelf(t)
	box.history.LastAdvice.At = bottest.Morning
	robin.Does(`/clicks save name:Old`) // 11 and 14 of 30 from soft
	box.fit(t, 0, 16)
	box.turn(1, tuning.Bump, 3)
	r := robin.Does(`/clicks load name:Old`)
	const rounded = "Front bump and rebound: 19 of 30 clicks from hard is 10.13 of 16, rounded to 10."
	if !strings.Contains(strings.Join(r.Notes, "\n"), rounded) || !strings.Contains(string(box.advice[0].Remedies[0].Why), rounded) {
		t.Errorf("%q, kept %q", r.Notes, box.advice[0].Remedies[0].Why)
	}
	if r.View.Line != "Other dampers, so rounded: front 10.13 → 10; rear 8.53 → 9." {
		t.Errorf("%q", r.View.Line)
	}
	if at, err := box.setting[1].Apply(box.advice[0].Remedies[0].Moves); err != nil || at[tuning.FL][tuning.Bump] != 6 || at[tuning.RL][tuning.Rebound] != 7 {
		t.Errorf("it goes to %v, %v", at, err)
	}
}

func TestClicksThatCannotBeLoaded(t *testing.T) {
	box, robin := newShelf(t)
	robin.Refused(tuning.NotFound, "No clicks of Blue hatch are saved yet", `/clicks load name:Dry`)
	robin.Does(`/clicks save name:"Dry fast"`)
	robin.Does(`/clicks save name:Wet`)
	if r := robin.Ask(`/clicks load`); r.Title != "Which of the saved clicks?" || labels(r) != "Wet, Dry fast" {
		t.Errorf("%q %q", r.Title, labels(r))
	}
	robin.Refused(tuning.NotFound, `No clicks of Blue hatch are saved as "Wed" (did you mean Wet?)`, `/clicks load name:Wed`)
	robin.Does(`/clicks forget name:Wet`)
	robin.Refused(tuning.NotFound, "are not saved any more", `/clicks load name:#2`)
	box.history.LastFeel = &tuning.Feel{Notes: "it leaks oil"}
	robin.Refused(tuning.Conflict, "no clicks until it has been inspected", `/clicks load name:"Dry fast"`)
	box.history.LastFeel, box.cars[0].Retired = nil, true
	robin.Refused(tuning.Conflict, "is retired", `/clicks load name:"Dry fast"`)
	box.cars[0].Retired, box.cars[0].Dampers = false, [tuning.Axles]tuning.Damper{}
	robin.Refused(tuning.Invalid, "I do not know the front dampers", `/clicks load name:"Dry fast"`)
	if len(box.advice) != 0 {
		t.Errorf("%d advices are given", len(box.advice))
	}
}

// That a one-way adjuster does other work than where the clicks come from is said,
// also where no click is rounded.
func TestLoadOnAnAdjusterThatDoesOtherWork(t *testing.T) {
	for moves, want := range map[tuning.Moves]string{
		tuning.MovesRebound: "The front adjuster moved rebound only there; here it moves bump too.",
		tuning.MovesBoth:    "The front adjuster moved bump too there; here it moves rebound only.",
	} {
		box, robin := newShelf(t)
		now := map[tuning.Moves]tuning.Moves{tuning.MovesRebound: tuning.MovesBoth, tuning.MovesBoth: tuning.MovesRebound}[moves]
		front := tuning.Damper{Ways: 1, Count: tuning.FromHard, Moves: moves}
		front.Range[tuning.Rebound] = 30
		box.cars[0].Dampers[tuning.Front] = front
		robin.Does(`/clicks save name:Old`)
		box.turn(1, tuning.Rebound, 2)
		if r := robin.Does(`/clicks load name:Old`); strings.Contains(r.View.Line, "there; here") {
			t.Errorf("the same adjuster: %q", r.View.Line)
		}
		box.cars[0].Dampers[tuning.Front].Moves = now
		if r := robin.Does(`/clicks load name:Old`); r.View.Line != want || r.Message().Line != want || r.Notes[0] != want || !strings.Contains(string(box.advice[1].Remedies[0].Why), want) {
			t.Errorf("%q, %q", r.View.Line, r.Notes)
		}
	}
}
