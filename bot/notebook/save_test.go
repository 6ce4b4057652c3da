package notebook_test

import (
	"strings"
	"testing"

	"detent/bot/bottest"
	"detent/tuning"
)

func TestSaveClicks(t *testing.T) {
	box, robin := newShelf(t)
	box.event = tuning.Event{ID: 5, Place: "Windy Hill", Weather: tuning.Dry}
	exit := -1
	box.today = &tuning.Feel{Grip: 7, Exit: &exit, At: bottest.Morning}
	r := robin.Does(`/clicks save name:" Dry  fast "`)
	if r.Title != "Saved as “Dry fast”" || r.Text != "Blue hatch, 16 May 2026, Windy Hill, dry: grip 7, exit pushes wide 1." || len(r.Corners) != 8 {
		t.Errorf("%q %q", r.Title, r.Text)
	}
	k := box.kept[0]
	if k.Name != "Dry fast" || k.Car != 1 || k.Event != 5 || k.Weather != tuning.ItWasDry || k.Setting != box.setting[1] || k.Dampers != box.cars[0].Dampers {
		t.Errorf("kept is %+v", k)
	}
	// What the driver said of today goes before what the event expects.
	box.history.LastFeel = &tuning.Feel{At: bottest.Morning, Conditions: tuning.ItWasDamp}
	if robin.Does(`/clicks save name:Damp`); box.kept[0].Weather != tuning.ItWasDamp {
		t.Errorf("kept is %+v", box.kept[0])
	}
	box.history.LastFeel.At = bottest.Morning.AddDate(0, 0, -1)
	if robin.Does(`/clicks save name:Later`); box.kept[0].Weather != tuning.ItWasDry {
		t.Errorf("kept is %+v", box.kept[0])
	}
	box.event.Weather = tuning.Either // nobody could tell, and nobody said since
	if robin.Does(`/clicks save name:Either`); box.kept[0].Weather != "" {
		t.Errorf("kept is %+v", box.kept[0])
	}
	box.history.Unrecorded = true
	if r := robin.Does(`/clicks save name:Assumed`); !strings.Contains(r.View.Line, "I assume the clicks are at the start") {
		t.Errorf("%q", r.View.Line)
	}
}

func TestClicksThatCannotBeSaved(t *testing.T) {
	box, robin := newShelf(t)
	robin.Does(`/clicks save name:"Dry fast"`)
	r := robin.Ask(`/clicks save name:"DRY fast"`)
	if r.Problem == nil || r.Problem.Kind != tuning.Conflict || r.Title != "Clicks of Blue hatch are saved as “Dry fast” already: choose another name." ||
		labels(r) != "Another name, Saved clicks" || r.Actions[0].Line() != "/clicks save car:#1" {
		t.Errorf("%q %+v", r.Title, r.Actions)
	}
	robin.Refused(tuning.Invalid, "Give these clicks a name", `/clicks save name:" "`)
	robin.Refused(tuning.Invalid, "means something else here", `/clicks save name:Today`)
	robin.Refused(tuning.Invalid, "means something else here", `/clicks save name:#7`)
	robin.Refused(tuning.Invalid, "use at most 60", `/clicks save name:`+strings.Repeat("x", 61))
	robin.Refused(tuning.Invalid, "Add name:TEXT to /clicks save", `/clicks save`)
	box.cars[1].Dampers = [tuning.Axles]tuning.Damper{}
	if r := robin.Ask(`/clicks save name:Dry car:"Red coupe"`); r.Problem == nil || labels(r) != "Dampers" {
		t.Errorf("without dampers: %q %+v", r.Title, r.Actions)
	}
	box.cars[0].Retired = true
	robin.Refused(tuning.Conflict, "is retired", `/clicks save name:Wet`)
	if len(box.kept) != 1 {
		t.Errorf("%d are kept", len(box.kept))
	}
}
