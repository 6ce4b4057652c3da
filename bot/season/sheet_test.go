package season_test

import (
	"bytes"
	"testing"

	"detent/tuning"
)

func TestSheetIsOfTheCarEntered(t *testing.T) {
	year, _, robin := newYear(t)
	robin.Refused(tuning.NotFound, "You are not entered in June day", `/event sheet`)
	year.entrants[1] = []tuning.Entrant{{Person: "sam", Car: year.cars[1]}, {Person: "robin", Car: year.cars[0]}}
	r := robin.Does(`/event sheet`)
	if r.Title != "Grey coupe at June day" || len(r.Files) != 1 || !bytes.HasPrefix(r.Files[0].Data, []byte("%PDF")) {
		t.Errorf("%q, %d files", r.Title, len(r.Files))
	}
	robin.Refused(tuning.Invalid, "dampers of New van", `/event sheet car:"New van"`)
}
