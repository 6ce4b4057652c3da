package garage_test

import (
	"testing"

	"detent/tuning"
	"detent/tuning/unit"
)

func TestFeelKeepsWhatWasMeasured(t *testing.T) {
	box, robin := newToolbox(t)
	robin.Refused(tuning.Invalid, "A feel takes hot pressures", `/feel grip:7 pressures:"2.1 cold"`)
	robin.Refused(tuning.Invalid, "a temperature between", `/feel grip:7 track:400`)
	robin.Refused(tuning.Invalid, "Which unit has the pressure 30?", `/feel grip:7 pressures:30`)
	if r := robin.Does(`/feel grip:7 pressures:"2.1 2.0" conditions:wet`); r.Text != "For Blue hatch: front 2.1 bar, rear 2 bar hot, wet." {
		t.Errorf("%q", r.Text)
	}
	box.HomeClub.Units = tuning.Imperial
	robin.Refused(tuning.Invalid, "Which unit has the pressure 2.1? Type 2.1bar.", `/feel grip:7 pressures:2.1`)
	robin.Does(`/feel grip:7 pressures:30 track:75 air:64 conditions:damp`)
	f := box.feels[len(box.feels)-1]
	if f.Conditions != tuning.ItWasDamp || unit.Show(unit.OfTemperature, float64(f.Track), true) != "75 °F" || unit.Show(unit.OfTemperature, float64(f.Air), true) != "64 °F" {
		t.Errorf("kept is %+v", f)
	}
}
