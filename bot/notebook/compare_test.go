package notebook_test

import (
	"strings"
	"testing"

	"detent/bot/phone"
	"detent/tuning"
)

func TestCompareWithToday(t *testing.T) {
	box, robin := newShelf(t)
	box.today = &tuning.Feel{Grip: 6, Notes: "lazy"}
	robin.Does(`/clicks save name:"Dry fast"`)
	r := robin.Does(`/clicks compare name:"dry fast"`)
	if r.Title != "“Dry fast” and today are the same clicks" || len(r.Corners) != 8 || labels(r) != "Saved clicks" {
		t.Errorf("%q %q", r.Title, labels(r))
	}
	box.turn(1, tuning.Rebound, 5)
	box.today = nil
	r = robin.Does(`/clicks compare name:"dry fast" with:today`)
	if r.Title != "“Dry fast” and today differ in 2 places" || r.View.Size != phone.List {
		t.Errorf("%q", r.Title)
	}
	const text = "Blue hatch. “Dry fast”, 16 May 2026: grip 6, “lazy”.\n" +
		"Today: not felt yet.\n" +
		"From today to “Dry fast”: Front rebound 5 softer, both sides: 14 → 19 from hard.\n" +
		"In the table “Dry fast” / today, counted from hard."
	if r.Text != text {
		t.Errorf("%s", r.Text)
	}
	const grid = "            FL     FR  RL  RR\n" +
		"bump        19     19  16  16\n" +
		"rebound  19/14  19/14  16  16"
	if r.View.Grid != grid {
		t.Errorf("\n%s", r.View.Grid)
	}
	if c := r.Corners[1]; len(r.Corners) != 8 || c.From != 16 || c.To != 11 {
		t.Errorf("%+v", r.Corners)
	}
	if labels(r) != "Load Dry fast, Saved clicks" || r.Actions[0].Line() != "/clicks load name:#1 car:#1" {
		t.Errorf("%+v", r.Actions)
	}
}

// Where nobody has said where the clicks stand, today's are assumed.
func TestCompareWithWhatIsAssumed(t *testing.T) {
	box, robin := newShelf(t)
	robin.Does(`/clicks save name:"Dry fast"`)
	box.turn(1, tuning.Rebound, 5)
	box.history.Unrecorded = true
	if r := robin.Does(`/clicks compare name:"Dry fast"`); !strings.HasPrefix(r.View.Line, "I assume the clicks") || labels(r) != "Load Dry fast, Saved clicks, Where they stand" {
		t.Errorf("%q %q", r.View.Line, labels(r))
	}
}

// Two that were saved are shown on the dampers that both were saved on, others on
// those of today, with what that rounds.
func TestCompareTwoSaved(t *testing.T) {
	box, robin := newShelf(t)
	robin.Does(`/clicks save name:Soft`)
	box.turn(1, tuning.Rebound, 5)
	robin.Does(`/clicks save name:Stiff`)
	box.fit(t, 0, 16)
	r := robin.Does(`/clicks compare name:Stiff with:Soft`)
	if !strings.Contains(r.View.Grid, "rebound  14/19  14/19  16  16") || len(r.Notes) != 0 || labels(r) != "Load Stiff, Load Soft, Saved clicks" {
		t.Errorf("%q\n%s\n%q", labels(r), r.View.Grid, r.Notes)
	}
	r = robin.Does(`/clicks compare name:Stiff`)
	if !strings.Contains(r.View.Grid, "rebound   7/11   7/11   9   9") || len(r.Notes) == 0 || !strings.HasPrefix(r.Notes[0], "“Stiff”, front bump: 19 of 30 clicks from hard is 10.13 of 16, rounded to 10.") {
		t.Errorf("%s\n%q", r.View.Grid, r.Notes)
	}
}

// The widest table has room on a phone.
func TestCompareFitsAPhone(t *testing.T) {
	box, robin := newShelf(t)
	d := tuning.Damper{Ways: 4, Count: tuning.FromSoft}
	for _, a := range d.Adjusters() {
		d.Range[a] = tuning.MaxRange
	}
	rear := tuning.Damper{Ways: 3, Count: tuning.FromHard}
	for _, a := range rear.Adjusters() {
		rear.Range[a] = tuning.MaxRange
	}
	box.cars[0].Dampers = [tuning.Axles]tuning.Damper{d, rear}
	at := func(clicks int) {
		var all tuning.Setting
		for c := range tuning.Corner(tuning.Corners) {
			for _, a := range box.cars[0].Dampers[c.Axle()].Adjusters() {
				all[c][a] = clicks + int(c)
			}
		}
		box.setting[1] = all
	}
	at(40)
	robin.Does(`/clicks save name:"` + strings.Repeat("long name ", 5) + `"`)
	at(60)
	r := robin.Does(`/clicks compare name:#1`)
	for line := range strings.SplitSeq(r.View.Grid, "\n") {
		if phone.Width(line) > phone.Columns {
			t.Errorf("%d columns: %s", phone.Width(line), line)
		}
	}
	if lines, runes := r.Message().Measure(); lines > 24 || runes > 1200 || !strings.Contains(r.Text, "front counted from soft, rear from hard") {
		t.Errorf("%d lines, %d characters:\n%s", lines, runes, r.Text)
	}
}

func TestComparisonsThatCannotBe(t *testing.T) {
	_, robin := newShelf(t)
	robin.Refused(tuning.NotFound, "No clicks of Blue hatch are saved yet", `/clicks compare`)
	robin.Does(`/clicks save name:"Dry fast"`)
	robin.Does(`/clicks save name:Wet`)
	r := robin.Ask(`/clicks compare name:Wet with:wet`)
	if r.Problem == nil || r.Problem.Kind != tuning.Invalid || r.Title != "Those are the same saved clicks: compare “Wet” with others, or with today's." ||
		labels(r) != "With today's, Saved clicks" || r.Actions[0].Line() != "/clicks compare name:#2 car:#1" {
		t.Errorf("%q %+v", r.Title, r.Actions)
	}
	r = robin.Ask(`/clicks compare name:Wet with:Dri`)
	if r.Problem == nil || r.Problem.Kind != tuning.NotFound || labels(r) != "Saved clicks" {
		t.Errorf("%q %q", r.Title, labels(r))
	}
	if r = robin.Ask(`/clicks compare name:Wet with:"Dry fest"`); labels(r) != "Dry fast, Saved clicks" || r.Actions[0].Line() != "/clicks compare name:Wet with:#1 car:#1" {
		t.Errorf("%q %+v", r.Title, r.Actions)
	}
}
