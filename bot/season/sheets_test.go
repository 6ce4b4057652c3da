package season_test

import (
	"bytes"
	"strings"
	"testing"

	"detent/tuning"
)

func TestSheetsOfAll(t *testing.T) {
	year, olga, robin := newYear(t)
	olga.Refused(tuning.NotFound, "There is no sheet to print for June day", `/event sheets`)
	robin.Refused(tuning.Forbidden, "organisers", `/event sheets`)
	for i := range 32 {
		year.entrants[1] = append(year.entrants[1], tuning.Entrant{Name: "Robin", Car: year.cars[0], Sheet: i > 0})
	}
	year.entrants[1] = append(year.entrants[1], tuning.Entrant{Name: "Sam", Car: year.cars[1], Sheet: true})
	r := olga.Does(`/event sheets`)
	if r.Title != "30 sheets for June day" || len(r.Files) != 1 || !r.Private || !strings.Contains(strings.Join(r.Notes, " "), "1 entrant wants none. Of 1 car I do not know the dampers") {
		t.Errorf("%q, %q, %d files", r.Title, r.Notes, len(r.Files))
	}
	if n := bytes.Count(r.Files[0].Data, []byte("/Type /Page\n")); n != 30 {
		t.Errorf("%d pages", n)
	}
	if rest := olga.Does(button(t, r, "The other 1")); rest.Title != "1 sheet for June day" || len(rest.Actions) != 1 {
		t.Errorf("%q, %+v", rest.Title, rest.Actions)
	}
	olga.Refused(tuning.NotFound, "There is no sheet to print", `/event sheets from:40`)
	button(t, olga.Does(`/event entrants`), "Sheets")
}
