package garage_test

import (
	"testing"

	"detent/tuning"
)

func TestFitDampers(t *testing.T) {
	box, robin := newToolbox(t)
	robin.Does(`/damper fit axle:both ways:four clicks:12 high-bump:20 count:soft`)
	for axle, d := range box.cars[0].Dampers {
		want := tuning.Damper{Ways: 4, Count: tuning.FromSoft}
		want.Range[tuning.LowBump], want.Range[tuning.HighBump], want.Range[tuning.LowRebound], want.Range[tuning.HighRebound] = 12, 20, 12, 12
		if d != want {
			t.Errorf("%s: %+v", tuning.Axle(axle), d)
		}
	}
	robin.Does(`/damper fit axle:rear ways:one clicks:7 count:hard`)
	if d := box.cars[0].Dampers[tuning.Rear]; d.Ways != 1 || d.Moves != tuning.MovesRebound || d.Range[tuning.Rebound] != 7 {
		t.Errorf("%+v", d)
	}
	if box.cars[0].Dampers[tuning.Front].Ways != 4 {
		t.Error("the front was fitted too")
	}
	robin.Refused(tuning.Invalid, "", `/damper fit axle:rear ways:two count:hard`)
	box.cars[0].Dampers[tuning.Front] = tuning.Damper{}
	robin.Refused(tuning.Invalid, "Tell me the front dampers first", `/damper curve axle:front file:a.csv`)
}
