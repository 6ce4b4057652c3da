package notebook_test

import (
	"testing"

	"detent/tuning"
)

func TestForgetClicks(t *testing.T) {
	box, robin := newShelf(t)
	robin.Refused(tuning.NotFound, "No clicks of Blue hatch are saved yet", `/clicks forget name:Dry`)
	robin.Does(`/clicks save name:"Dry fast"`)
	stood := box.setting[1]
	box.turn(1, tuning.Rebound, 4)
	box.cars[0].Retired = true // of a retired car too
	r := robin.Does(`/clicks forget name:"dry fast"`)
	if r.Title != "Forgotten: “Dry fast”" || len(r.Corners) != 8 || r.Corners[1].To != stood[tuning.FL][tuning.Rebound] || len(box.kept) != 0 {
		t.Errorf("%q %+v", r.Title, r.Corners)
	}
	robin.Refused(tuning.NotFound, "are not saved any more", `/clicks forget name:#1`)
}
