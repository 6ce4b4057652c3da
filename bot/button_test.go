package bot

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"detent/tuning"
)

// What a person reads has names; what a button carries has numbers.
func TestButtonNamesItsThings(t *testing.T) {
	car, event := tuning.Car{ID: 12, Name: "Blue hatch"}, tuning.Event{ID: 3, Name: "Spring day"}
	for _, c := range []struct {
		made, want Action
		pressed    string
	}{
		{Button("Add", "/car add"), Action{Label: "Add", Ask: "/car add"}, "/car add"},
		{Button("Log", "/log page:2", OfCar(car)), Action{Label: "Log", Ask: `/log page:2 car:"Blue hatch"`, Press: "/log page:2 car:#12"}, "/log page:2 car:#12"},
		{Button("Leave", "/event leave", OfEvent(event), OfCar(car)),
			Action{Label: "Leave", Ask: `/event leave name:"Spring day" car:"Blue hatch"`, Press: "/event leave name:#3 car:#12"}, "/event leave name:#3 car:#12"},
		{FeelAt("Say", event, car), Action{Label: "Say", Ask: `/feel event:#3 car:"Blue hatch"`, Press: "/feel event:#3 car:#12"}, "/feel event:#3 car:#12"},
	} {
		if diff := cmp.Diff(c.want, c.made); diff != "" {
			t.Error(diff)
		}
		if got := c.made.Line(); got != c.pressed {
			t.Errorf("%s carries %s", c.made.Label, got)
		}
	}
}
