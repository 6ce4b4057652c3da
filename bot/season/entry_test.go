package season_test

import (
	"strings"
	"testing"

	"detent/tuning"
)

func TestEnterAndLeave(t *testing.T) {
	year, _, robin := newYear(t)
	in := robin.Does(`/event enter name:"June day" sheet:yes`)
	if in.Title != "Grey coupe is in for June day" || len(in.Files) != 1 || in.Files[0].Name != "sheet.pdf" || year.due["robin"] == 0 {
		t.Errorf("%q, %d files, due %v", in.Title, len(in.Files), year.due)
	}
	quiet := robin.Does(button(t, in, "No messages, please"))
	if len(year.entrants[1]) != 1 || year.entrants[1][0].Reminded || year.due["robin"] != 0 {
		t.Errorf("%+v, due %v", year.entrants[1], year.due)
	}
	robin.Does(button(t, quiet, "Do send messages"))
	if !year.entrants[1][0].Reminded || year.due["robin"] == 0 {
		t.Errorf("%+v, due %v", year.entrants[1], year.due)
	}
	robin.Does(`/event enter car:"New van" sheet:yes`) // its dampers are not known, so no sheet
	if out := robin.Does(`/event leave car:"New van"`); out.Title != "New van left June day" || len(year.entrants[1]) != 1 {
		t.Errorf("%q, %d in", out.Title, len(year.entrants[1]))
	}
	robin.Does(button(t, in, "Take my entry back"))
	robin.Refused(tuning.NotFound, "You are not entered in June day", `/event leave`)
}

// Whoever is in may change their mind about the sheet, and keeps what else they
// said.
func TestSheetWanted(t *testing.T) {
	year, _, robin := newYear(t)
	in := robin.Does(`/event enter remind:no`)
	if e := year.entrants[1][0]; !e.Sheet || !strings.Contains(in.Text, "A sheet is printed for you") || len(in.Files) != 0 {
		t.Errorf("%+v, %q", e, in.Text)
	}
	out := robin.Does(`/event enter sheet:no`)
	if e := year.entrants[1][0]; len(year.entrants[1]) != 1 || e.Sheet || e.Reminded || !strings.Contains(out.Text, "No sheet is printed for you") {
		t.Errorf("%+v, %q", e, out.Text)
	}
	if robin.Does(`/event enter sheet:yes remind:yes`); !year.entrants[1][0].Sheet || !year.entrants[1][0].Reminded {
		t.Errorf("%+v", year.entrants[1][0])
	}
}

func TestEnterRefuses(t *testing.T) {
	year, _, robin := newYear(t)
	year.cars[1].Retired = true
	robin.Refused(tuning.Invalid, "New van is retired", `/event enter car:"New van"`)
	robin.At = year.events[0].Ends
	robin.Refused(tuning.Conflict, "June day was over", `/event enter`)
}

// Who takes no messages at all is told so at the entry.
func TestEnterWithRemindersOff(t *testing.T) {
	year, _, robin := newYear(t)
	year.Asker.Reminders = false
	if in := robin.Does(`/event enter`); year.entrants[1][0].Reminded || len(in.Notes) != 0 {
		t.Errorf("%+v, notes %q", year.entrants[1], in.Notes)
	}
	if in := robin.Does(`/event enter remind:yes`); len(in.Notes) != 1 {
		t.Errorf("notes %q", in.Notes)
	}
}
