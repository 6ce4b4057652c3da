package main

import (
	"strings"
	"testing"
)

func TestAFaultStopsTheClicks(t *testing.T) {
	p := newPaddock(t).blueHatch()
	advice := p.does(`/symptom what:understeer`)
	p.does(`/sweep start`)
	p.does(`/feel grip:3 notes:"knocking noise rear left"`)
	if r := p.does(`/symptom what:understeer`); len(r.Remedies) != 0 || !strings.Contains(r.Text, "knocking") {
		t.Errorf("a symptom after a knock: %q", r.Text)
	}
	p.refuses("conflict", "inspected", advice.Remedies[0].Apply)
	p.refuses("conflict", "inspected", `/sweep run hop:no`)
	p.refuses("conflict", "inspected", `/sweep start weather:wet`)
	p.does(`/feel grip:6 notes:"top mount replaced, no knock"`)
	p.does(advice.Remedies[0].Apply)
}

func TestTheLatestFeelCounts(t *testing.T) {
	p := newPaddock(t).blueHatch()
	a := p.does(`/symptom what:understeer`)
	p.does(a.Remedies[0].Apply, `/feel grip:5 better:yes`, `/feel grip:4 better:no`)
	if r := p.does(`/symptom what:understeer`); !strings.HasPrefix(r.Title, "Take that change back") {
		t.Errorf("after yes, then no: %q", r.Title)
	}
	p.does(`/feel grip:7 better:yes`)
	if r := p.does(`/symptom what:understeer`); strings.HasPrefix(r.Title, "Take") {
		t.Errorf("after no, then yes: %q", r.Title)
	}
}

func TestRetiredCars(t *testing.T) {
	p := newPaddock(t).blueHatch()
	advice := p.does(`/symptom what:understeer`)
	p.as("--as", "Olga", "--role", "organiser").does(`/event add name:Autumn starts:"2026-09-16 09:00" ends:"2026-09-16 17:00" limit:1`)
	p.does(`/event enter`)
	if r := p.does(`/car retire`); !strings.Contains(strings.Join(r.Notes, ""), "no longer entered in Autumn") {
		t.Errorf("retiring leaves it entered: %q", r.Notes)
	}
	p.as("--as", "Sam").blueHatch().does(`/event enter name:Autumn`)
	p.refuses("not-found", "all retired", `/symptom what:understeer`)
	p.refuses("conflict", "/car main", `/symptom what:understeer car:"Blue hatch"`)
	p.refuses("conflict", "/car main", `/clicks set at:all adjuster:bump to:3 car:"Blue hatch"`)
	p.refuses("conflict", "/car main", advice.Remedies[0].Apply)
	p.does(`/log car:"Blue hatch"`)
	p.does(`/car main car:"Blue hatch"`, `/symptom what:understeer`)
}

func TestWhatIsTypedInAHurry(t *testing.T) {
	p := newPaddock(t)
	p.does(`/car add name:A drive:RWD engine:mid`, `/damper fit axle:both ways:2 compression:12 rebound:20 count:hard`)
	if r := p.does(`/clicks set at:lf adjuster:compression to: 4`); at(t, r.Corners, "FL", "bump").Shown != "4 from hard" {
		t.Errorf("compression at the left front: %+v", r.Corners)
	}
	if r := p.does(`/symptom what:"low grip"`); len(r.Remedies) != 1 {
		t.Errorf("low grip in two words: %+v", r.Remedies)
	}
	if r := p.does(`/symptom what:oversteer axle:front`); strings.Contains(r.Text, "at the front") {
		t.Errorf("an axle that means nothing is said back: %q", r.Text)
	}
	if r := p.does(`/help symptom`); !strings.Contains(r.Text, "/symptom what:") {
		t.Errorf("/help symptom: %q", r.Text)
	}
	p.refuses("invalid", "which do you mean", `/car edit mass:1,250kg`)
	p.refuses("invalid", "four-wheel", `/car edit torque-front:60%`)
	p.does(`/car edit drive:four torque-front:60%`)
	if r := p.does(`/car edit drive:rear`); strings.Contains(r.Text, "orque") {
		t.Errorf("the torque of a car that is not four-wheel driven: %q", r.Text)
	}
}

func TestEveryButtonInATerminalCanBeAsked(t *testing.T) {
	p := newPaddock(t).blueHatch()
	for _, line := range []string{`/car show`, `/baseline`, `/symptom what:understeer`, `/clicks set at:front adjuster:bump to:3`, `/sweep start`, `/window`, `/feel grip:5 hop:yes exit:-1 better:no`, `/me show`} {
		for _, a := range p.does(line).Actions {
			if r := p.as("--as", "Nobody").ask(a.Ask)[0]; r.Problem != nil && r.Problem.Kind == "invalid" && !strings.Contains(r.Problem.Say, "damper") {
				t.Errorf("%s offers %s: %s", line, a.Ask, r.Problem.Say)
			}
		}
	}
}

func TestRepliesAreShortEnoughForAPhone(t *testing.T) {
	p := newPaddock(t)
	p.does(`/car add name:"`+strings.Repeat("Long name ", 5)+`" drive:rear engine:mid`, `/damper fit axle:both ways:four clicks:24 count:hard`,
		`/clicks set at:front adjuster:low-bump to:3`, `/clicks set at:rear adjuster:high-bump to:5`, `/clicks set at:all adjuster:low-rebound to:1`)
	for _, line := range []string{`/baseline`, `/baseline weather:wet`, `/symptom what:nervous`, `/symptom what:oversteer`, `/symptom what:low-grip`, `/window`, `/car show`, `/clicks show`, `/help`} {
		r := p.does(line)
		if n := len([]rune(r.Title + r.Text)); n > 900 {
			t.Errorf("%s: %d characters before the details", line, n)
		}
	}
}

func TestAButtonCountsOnce(t *testing.T) {
	p := newPaddock(t).blueHatch()
	first := p.does(`/clicks set at:all adjuster:bump to:12`)
	second := p.does(`/clicks set at:all adjuster:rebound to:12`)
	back := second.Actions[1].Ask
	p.does(back)
	if again := p.does(back); !strings.Contains(again.Title, "Already taken back") {
		t.Errorf("pressed twice: %q", again.Title)
	}
	if r := p.does(`/clicks show`); at(t, r.Corners, "FL", "bump").Shown != "12 from hard" {
		t.Errorf("the second press took back another change: %+v", r.Corners)
	}
	p.does(`/clicks set at:all adjuster:rebound to:10`)
	p.refuses("conflict", "have come after", first.Actions[1].Ask)

	start := p.does(`/sweep start`)
	p.does(start.Actions[0].Ask)
	if again := p.does(start.Actions[0].Ask); !strings.Contains(again.Title, "noted already") {
		t.Errorf("a run pressed twice: %q", again.Title)
	}
	if r := p.does(`/clicks show`); at(t, r.Corners, "FL", "bump").Shown != "9 from hard" {
		t.Errorf("the second press turned more: %+v", r.Corners)
	}
}

func TestUndoGoesOnAfterAnOlderChangeWasTakenBack(t *testing.T) {
	p := newPaddock(t).blueHatch()
	a := p.does(`/symptom what:understeer`)
	p.does(a.Remedies[0].Apply, `/feel grip:4 better:no`, `/clicks set at:rear adjuster:rebound to:12`, `/clicks set at:front adjuster:bump to:12`)
	b := p.does(`/symptom what:understeer`)
	p.does(b.Remedies[0].Apply, `/undo`)
	p.refuses("conflict", "taken back", `/undo`)
}

func TestNamesOutsideASCIIAreLeftAlone(t *testing.T) {
	p := newPaddock(t)
	p.does(`/car add name:émile drive:rear engine:mid`, `/damper fit axle:both ways:two clicks:20 count:soft`)
	if r := p.does(`/symptom what:hops`); !strings.HasPrefix(r.Text, "émile, ") {
		t.Errorf("the name is said as %q", r.Text)
	}
}

func TestLongKeysAreRefused(t *testing.T) {
	newPaddock(t)
	long := strings.Repeat("x", 201)
	for _, flag := range []string{"--as", "--club", "--id"} {
		if _, errs, code := execute(t, "ask", flag, long, "/help"); code != exitWrongUse || !strings.Contains(errs, flag) {
			t.Errorf("a long %s left with %d, %q", flag, code, errs)
		}
	}
}

func TestWetFromTheDryStart(t *testing.T) {
	p := newPaddock(t).blueHatch()
	p.does(p.does(`/baseline`).Actions[0].Ask)
	wet := p.does(`/symptom what:understeer weather:wet`)
	if !strings.HasPrefix(wet.Title, "Go to the wet start") || len(wet.Remedies) != 3 {
		t.Fatalf("wet from the dry start: %q", wet.Title)
	}
	p.does(wet.Remedies[0].Apply)
	if again := p.does(`/symptom what:understeer weather:wet`); strings.Contains(again.Title, "wet start") || len(again.Remedies) != 2 {
		t.Errorf("wet from the wet start: %q", again.Title)
	}
}

func TestWhatJustFailedIsNotOfferedFirstAgain(t *testing.T) {
	p := newPaddock(t).blueHatch()
	first := p.does(`/symptom what:understeer`)
	p.does(first.Remedies[0].Apply, `/feel grip:4 better:no`, `/undo`)
	again := p.does(`/symptom what:understeer`)
	if again.Title == first.Title || again.Remedies[1].Corners[0].Turn != first.Remedies[0].Corners[0].Turn {
		t.Errorf("what felt worse and was taken back is offered first again: %q", again.Title)
	}
	if say := strings.Join(again.Notes, " "); !strings.Contains(say, "felt worse on ") {
		t.Errorf("it does not say why: %q", say)
	}
}

func TestUnequalSidesAreSaid(t *testing.T) {
	p := newPaddock(t).blueHatch()
	p.does(`/clicks set at:RL adjuster:rebound to:9`, `/clicks set at:RR adjuster:rebound to:1`)
	if say := strings.Join(p.does(`/symptom what:understeer`).Notes, " "); !strings.Contains(say, "Rear rebound stands at 9 left and 1 right: make them equal first.") {
		t.Errorf("the notes are %q", say)
	}
}
