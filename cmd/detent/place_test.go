package main

import (
	"strings"
	"testing"
)

// hillPaddock is a club with two days at Windy Hill and one elsewhere. Robin was
// at the first in the dry, turned the rear rebound stiffer and felt it better,
// and turned on at home.
func hillPaddock(t *testing.T) (robin, olga paddock) {
	robin, olga = seasonPaddock(t)
	olga.does(`/event add name:"Summer day" starts:"2026-06-13 09:00" ends:"2026-06-13 17:00" place:" WINDY hill"`,
		`/event add name:"Meadow day" starts:"2026-06-20 09:00" ends:"2026-06-20 17:00" place:"Long Meadow"`)
	robin.does(`/clicks set at:all adjuster:rebound to:15`, `/event enter`)
	robin.as("--at", "2026-05-16T08:00:00Z").does(`/feel grip:6 conditions:dry`)
	first := robin.as("--at", "2026-05-16T09:00:00Z").does(`/symptom what:understeer where:entry`)
	robin.as("--at", "2026-05-16T09:10:00Z").does(first.Remedies[0].Apply)
	robin.as("--at", "2026-05-16T10:00:00Z").does(`/feel grip:8 better:yes conditions:dry lap:1:42.6`)
	robin.as("--at", "2026-05-16T12:00:00Z").does(`/undo`)
	robin.as("--at", "2026-05-16T13:00:00Z").does(`/feel grip:5 conditions:damp`)
	return robin.as("--at", "2026-06-10T10:00:00Z"), olga.as("--at", "2026-06-10T10:00:00Z")
}

func TestAPlaceHasAMemory(t *testing.T) {
	robin, olga := hillPaddock(t)
	if in := robin.does(`/event enter name:"Meadow day"`); strings.Contains(in.Text, "best") || len(in.Actions) != 3 {
		t.Errorf("at a place where it never was: %s", in.Text)
	}
	in := robin.does(`/event enter name:"Summer day"`)
	for _, words := range []string{
		"Windy Hill, dry: best grip 8 (16 May 2026), with rear rebound 12 from hard (15 today).", // taken back since
		"Windy Hill, wet: best grip 5 (16 May 2026), with the clicks as they stand today.",
		"Helped there: rear rebound stiffer for understeer on entry, 1 of 1 time.",
	} {
		if !strings.Contains(in.Text, words) {
			t.Errorf("entering lacks %q:\n%s", words, in.Text)
		}
	}
	whole := robin.does(in.Actions[3].Line())
	for _, words := range []string{"Best in the dry: grip 8, lap 1:42.600", "Rear, from hard: bump 16; rebound 12 (15 today).",
		"To go back there: rear rebound 3 stiffer, both sides: 15 → 12 from hard.", "as at the best in the wet.", "What helped there:"} {
		if !strings.Contains(whole.Text, words) {
			t.Errorf("the place lacks %q:\n%s", words, whole.Text)
		}
	}
	olga.does(`/event edit name:"Summer day" weather:dry`)
	back := robin.does(`/event place name:"Summer day"`)
	robin.does(back.Actions[0].Line())
	if there := robin.does(`/event place name:"Summer day"`); !strings.Contains(there.Text, "It stands there today.") {
		t.Errorf("the button did not lead back:\n%s", there.Text)
	}
	robin.does(`/damper fit axle:rear ways:one clicks:12 count:hard moves:both`)
	if other := robin.does(`/event place name:"Summer day"`); !strings.Contains(other.Text, "Rear: other dampers then, so those clicks do not count any more.") {
		t.Errorf("on other dampers it says\n%s", other.Text)
	}
}

// The evening before, the reminder says it to the person alone.
func TestTheReminderRemembersThePlace(t *testing.T) {
	robin, olga := hillPaddock(t)
	olga.does(`/club set channel:paddock`)
	robin.does(`/event enter name:"Summer day"`)
	robin.as("--as", "Kim").blueHatch().does(`/event enter name:"Summer day"`)
	printed, errs := robin.due("2026-06-12T17:00:00Z")
	said := map[string]delivery{}
	for _, d := range printed {
		if strings.HasPrefix(d.Title, "Summer day starts") {
			said[d.To] = d
		}
	}
	if len(said) != 2 {
		t.Fatalf("printed are %+v\n%s", printed, errs)
	}
	mine := said["Robin"]
	if !strings.Contains(mine.Text, "best grip 8 (16 May 2026), with rear rebound 12 from hard (15 today).") {
		t.Errorf("the reminder says\n%s", mine.Text)
	}
	mine.View.Size = 1
	if lines, runes := mine.Message().Measure(); lines > 20 || runes > 900 {
		t.Errorf("the reminder has %d lines and %d characters:\n%s", lines, runes, mine.Message().Words())
	}
	found := false
	for _, a := range mine.Actions {
		found = found || a.Label == "What worked with Blue hatch"
	}
	if kims := said["Kim"]; !found || strings.Contains(kims.Text, "best") || len(kims.Actions) != 2 {
		t.Errorf("the buttons are %+v; Kim is told\n%s", mine.Actions, kims.Text)
	}
}

// What a place remembers is the person's own: in one club, and gone with them.
func TestThePlaceIsOnesOwn(t *testing.T) {
	robin, olga := hillPaddock(t)
	robin.does(`/event enter name:"Summer day"`)
	kim := robin.as("--as", "Kim").blueHatch()
	if in := kim.does(`/event enter name:"Summer day"`); strings.Contains(in.Text, "best") {
		t.Errorf("another's record is told: %s", in.Text)
	}
	kim.refuses("not-found", "Nothing is on record of Blue hatch at WINDY hill yet", `/event place name:"Summer day"`)
	away := robin.as("--club", "meadow")
	away.as("--as", "Olga", "--role", "organiser").does(`/event add name:"Summer day" starts:"2026-06-13 09:00" ends:"2026-06-13 17:00" place:"Windy Hill"`)
	if in := away.blueHatch().does(`/event enter`); strings.Contains(in.Text, "best") {
		t.Errorf("another club's record is told: %s", in.Text)
	}
	robin.does(`/me erase sure:yes`)
	if in := robin.blueHatch().does(`/event enter name:"Summer day"`); strings.Contains(in.Text, "best") {
		t.Errorf("what was erased is told: %s", in.Text)
	}
	olga.refuses("not-found", "You have no car here yet", `/event place name:"Summer day"`)
}
