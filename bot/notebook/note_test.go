package notebook_test

import (
	"strings"
	"testing"

	"detent/tuning"
)

func TestNotesAreKeptAndSaidBack(t *testing.T) {
	box, robin := newShelf(t)
	r := robin.Does(robinsNote)
	if n := box.notes[0]; n.What != tuning.AboutTyres || n.Text != "new set" || n.Heat != tuning.TakenCold || n.Pressures != (tuning.Pressures{1.9e5, 1.9e5, 1.9e5, 1.9e5}) || n.Person != "robin" || n.Car != 1 {
		t.Errorf("kept is %+v", n)
	}
	if r.Title != "Noted: tyres: new set, 1.9 bar cold" || len(r.Notes) != 1 || r.Actions[1].Line() != "/feel car:#1" {
		t.Errorf("%q %q", r.Title, r.Notes)
	}
	if r := robin.Does(`/note what:"ride height" text:"5 mm lower"`); r.Title != "Noted: ride height: 5 mm lower" || len(r.Notes) != 0 {
		t.Errorf("%q %q", r.Title, r.Notes)
	}
	if r := robin.Does(`/note what:pressures pressures:"2.1 2.0 hot"`); r.Title != "Noted: pressures front 2.1 bar, rear 2 bar hot" {
		t.Errorf("%q", r.Title)
	}
	box.HomeClub.Units = tuning.Imperial
	if r := robin.Does(`/note what:pressures pressures:30 heat:hot`); r.Title != "Noted: pressures 30 psi hot" {
		t.Errorf("%q", r.Title)
	}
}

func TestNotesThatCannotBe(t *testing.T) {
	box, robin := newShelf(t)
	robin.Refused(tuning.Invalid, "A note needs words", `/note what:brakes`)
	robin.Refused(tuning.Invalid, "A note needs words", `/note what:brakes text:" "`)
	robin.Refused(tuning.Invalid, "A note needs words or numbers", `/note what:pressures`)
	robin.Refused(tuning.Invalid, "which pressures were taken hot", `/note what:pressures text:"as ever" heat:hot`)
	robin.Refused(tuning.Invalid, "both cold and hot", `/note what:pressures pressures:"2.1 cold" heat:hot`)
	robin.Refused(tuning.Limit, "under 1000", `/note what:other text:`+strings.Repeat("x", 1001))
	robin.Refused(tuning.Invalid, "Which unit has the pressure 30?", `/note what:pressures pressures:30`)
	box.cars[0].Retired = true
	robin.Refused(tuning.Conflict, "is retired", robinsNote)
	if len(box.notes) != 0 {
		t.Errorf("%d notes are kept", len(box.notes))
	}
}

const robinsNote = `/note what:tyres text:" new set " pressures:1.9`
