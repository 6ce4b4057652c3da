package garage_test

import (
	"strings"
	"testing"
	"time"

	"detent/bot/bottest"
	"detent/tuning"
)

func TestAddCar(t *testing.T) {
	box, robin := newToolbox(t)
	robin.Does(`/car add name:" Grey  coupe " drive:four engine:mid mass:2500lb bar-front:0N/mm torque-front:40% tyre:slick`)
	c := box.cars[1]
	if c.Name != "Grey coupe" || c.Owner != "robin" || c.Main || c.Drive != tuning.FourDrive || c.Tyre != tuning.Slick || c.Use != tuning.TrackUse ||
		c.Mass < 1133 || c.Mass > 1135 || c.TorqueFront != 0.4 || c.Ends[tuning.Front].Bar == nil || *c.Ends[tuning.Front].Bar != 0 || c.Ends[tuning.Rear].Bar != nil {
		t.Errorf("kept is %+v", c)
	}
	robin.Refused(tuning.Invalid, "Give it a name", `/car add name:"" drive:front engine:front`)
	robin.Refused(tuning.Invalid, "torque-front is for four-wheel drive", `/car add name:x drive:front engine:front torque-front:40%`)
	robin.Refused(tuning.Invalid, "mass lies between", `/car add name:x drive:front engine:front mass:12kg`)
	for len(box.cars) < 50 {
		box.cars = append(box.cars, tuning.Car{})
	}
	robin.Refused(tuning.Limit, "50 cars", `/car add name:x drive:front engine:front`)
}

func TestEditCar(t *testing.T) {
	box, robin := newToolbox(t)
	was := box.cars[0]
	robin.Refused(tuning.Invalid, "Say what to change", `/car edit`)
	robin.Refused(tuning.Invalid, "Say what to change", `/car edit car:"Blue hatch"`)
	robin.Does(`/car edit car:#1 spring-rear:40N/mm use:road-and-track name:"Old hatch"`)
	want := was
	want.Ends[tuning.Rear].Spring, want.Use, want.Name = 40e3, tuning.RoadAndTrackUse, "Old hatch"
	if got := box.cars[0]; got != want {
		t.Errorf("it became %+v", got)
	}
	robin.Refused(tuning.Invalid, "Give it a name", `/car edit name:""`)
}

func TestMainAndRetired(t *testing.T) {
	box, robin := newToolbox(t)
	box.in = []tuning.Event{{ID: 7, Name: "Late day", Starts: bottest.Morning.Add(time.Hour), Ends: bottest.Morning.Add(2 * time.Hour)}}
	if r := robin.Does(`/car retire`); !box.cars[0].Retired || box.cars[0].Main || len(box.left) != 1 || !strings.Contains(r.Notes[0], "Late day") {
		t.Errorf("%+v, left %v, notes %q", box.cars[0], box.left, r.Notes)
	}
	robin.Refused(tuning.NotFound, `/car main car:"Blue hatch"`, `/baseline`)
	robin.Refused(tuning.Conflict, "is retired", `/baseline car:"Blue hatch"`)
	if list := robin.Does(`/car list`); list.Text != "Blue hatch: front engine, front drive, retired" {
		t.Errorf("listed is %q", list.Text)
	}
	robin.Does(`/car main car:"Blue hatch"`)
	if box.cars[0].Retired || !box.cars[0].Main {
		t.Errorf("%+v", box.cars[0])
	}
}

// A name is proposed, and two questions are enough.
func TestACarIsAskedFor(t *testing.T) {
	box, robin := newToolbox(t)
	box.cars = nil
	line := button(t, robin.Ask(`/baseline`), "Add a car")
	line = button(t, robin.Ask(line), "Rear wheels")
	line = button(t, robin.Ask(line), "In the middle")
	saved := robin.Does(line)
	if c := box.cars[0]; c.Name != "My car" || !c.Main || c.Drive != tuning.RearDrive || c.Engine != tuning.MidEngine {
		t.Errorf("%+v", c)
	}
	button(t, saved, "Two-way")
	if name := button(t, saved, "Name it"); name != "/car edit name:? car:#1" {
		t.Errorf("the name asks %s", name)
	}
	robin.Does(line)
	if box.cars[1].Name != "My car 2" {
		t.Errorf("the second is %q", box.cars[1].Name)
	}
}
