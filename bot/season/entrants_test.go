package season_test

import (
	"fmt"
	"strings"
	"testing"

	"detent/tuning"
)

func TestEntrants(t *testing.T) {
	year, olga, robin := newYear(t)
	olga.Refused(tuning.NotFound, "Nobody has entered June day yet", `/event entrants`)
	olga.Refused(tuning.NotFound, "There is no event called", `/event entrants name:July`)
	robin.Does(`/event enter`)
	robin.Does(`/event enter car:"New van" sheet:no`)
	for i := range year.entrants[1] {
		year.entrants[1][i].Name = "Robin"
	}
	r := olga.Does(`/event entrants`)
	want := "Dampers: 1 not known, 1 two-way.\n1 of 2 want a sheet.\n" +
		"Robin: Grey coupe, two-way, 16 clicks from hard\nRobin: New van, dampers not known; no sheet"
	if !r.Private || r.Title != "June day: 2 cars are in" || r.Text != want {
		t.Errorf("%q\n%s\nwant\n%s", r.Title, r.Text, want)
	}
	robin.Refused(tuning.Forbidden, "coaches", `/event entrants`)
	coach := robin
	coach.Role = tuning.CoachRole
	coach.Does(`/event entrants name:"June day"`)
	robin.Does(`/event enter car:"New van" sheet:yes`)
	if r := olga.Does(`/event entrants`); !strings.Contains(r.Text, "All want a sheet.") {
		t.Errorf("%s", r.Text)
	}
}

// A full field is read in pages.
func TestEntrantsInPages(t *testing.T) {
	year, olga, _ := newYear(t)
	for i := range 60 {
		year.entrants[1] = append(year.entrants[1], tuning.Entrant{Name: fmt.Sprintf("Member %d", i), Car: year.cars[0], Sheet: true})
	}
	line, seen := `/event entrants`, 0
	for pages := 0; line != ""; pages++ {
		r := olga.Does(line)
		m := r.Message()
		if lines, runes := m.Measure(); lines > 24 || runes > 1200 || pages > 10 {
			t.Fatalf("page %d has %d lines and %d characters", pages, lines, runes)
		}
		seen += strings.Count(m.Text, "Member ")
		line = ""
		for _, a := range m.Actions {
			if a.Label == "More" {
				line = a.Line()
			}
		}
	}
	if seen != 60 {
		t.Errorf("%d of 60 were shown", seen)
	}
}
