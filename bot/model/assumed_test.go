package model

import (
	"strings"
	"testing"

	"detent/tuning"
	"detent/tuning/figures"
	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

// kinds are all kinds of assumption with their sentences, in metric units.
var kinds = map[figures.AssumptionKind]string{
	figures.OrdinaryFigures: "What is not known is taken from an ordinary car with its engine amidships, rear-wheel drive and slick tyres, from memory and not measured.",
	figures.OrdinaryCar:     "Too little is known of this car, so the figures are those of an ordinary one with its engine amidships, rear-wheel drive and slick tyres, from memory and not measured.",
	figures.OneFigure:       "Spring 57.1 N/mm front, 60 N/mm rear (estimate).",
	figures.NominalDampers:  "Dampers, front and rear: damping ratio 0.25 at full soft to 1.0 at full hard, rebound twice bump, less than half beyond 60 mm/s of the shaft (estimate; a force table takes its place).",
	figures.BumpInMiddle:    "The front and rear bump, which no click turns: that of a damper in the middle (estimate).",
	figures.ClicksBySpeed:   "The front and rear low-speed clicks turn the damping up to 60 mm/s of the shaft, the high-speed clicks the slope beyond (estimate).",
	figures.TableEnds:       "The front and rear force table goes from click 2 to 9: beyond that the nearest one holds (estimate).",
	figures.OneColumn:       "The front and rear force table has one column of clicks: low-speed clicks are read up to 60 mm/s of the shaft, high-speed clicks beyond (estimate).",
	figures.RigidBody:       "Roll centres, links and inertias of the body: estimate, nobody measures them.",
}

func TestEachAssumptionIsSaid(t *testing.T) {
	spring := unit.OfStiffness
	tuningtest.SaysEach(t, "../../tuning/figures", kinds)
	for kind, want := range kinds {
		a := figures.Assumption{Kind: kind, Name: "spring", Ends: [tuning.Axles]bool{true, true}, Between: [2]int{2, 9},
			Values: []figures.Figure{{Of: spring, Value: 57.1e3, End: "front"}, {Of: spring, Value: 60e3, End: "rear"}},
			Layout: figures.Layout{Engine: tuning.MidEngine, Drive: tuning.RearDrive, Tyre: tuning.Slick}}
		if got := sayAssumption(a, false); got != want {
			t.Errorf("%s is said as\n%q, want\n%q", kind, got, want)
		}
		if kind == figures.OneFigure && !strings.HasPrefix(sayAssumption(a, true), "Spring 326 lb/in front, ") {
			t.Errorf("in imperial units it is %q", sayAssumption(a, true))
		}
	}
}
