package season_test

import (
	"bytes"
	"strings"
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

// The starts are worked by hand from the rules of the trade (common practice, no
// published source): of 16 clicks 9 from hard in front and 11 behind, and a step
// of 2 softer in the wet.
func TestSheetForEitherWeather(t *testing.T) {
	year, olga, robin := newYear(t)
	olga.Does(`/event edit name:"June day" weather:either`)
	if e := year.events[0]; e.Weather != tuning.Either {
		t.Errorf("kept is %q", e.Weather)
	}
	robin.Does(`/event enter`)
	said := robin.Does(`/event sheet`).Message().Words()
	for _, words := range []string{"Front bump                 9/11 from hard", "Rear rebound              11/13 from hard", "dry/wet"} {
		if !strings.Contains(said, words) {
			t.Errorf("the sheet lacks %q:\n%s", words, said)
		}
	}
	if shown := robin.Does(`/event show`).Text; !strings.Contains(shown, "dry or wet") {
		t.Errorf("the event says %q", shown)
	}
}
