package model

import (
	"fmt"
	"strings"

	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/figures"
	"detent/tuning/unit"
)

// sayAssumed puts what is assumed of a car into sentences, in metric or imperial
// units.
func sayAssumed(all []figures.Assumption, imperial bool) []string {
	var lines []string
	for _, a := range all {
		lines = append(lines, sayAssumption(a, imperial))
	}
	return lines
}

func sayAssumption(a figures.Assumption, imperial bool) string {
	ends := endsOf(a)
	switch a.Kind {
	case figures.OrdinaryFigures:
		return "What is not known is taken from an ordinary car" + sayLayout(a.Layout)
	case figures.OrdinaryCar:
		return "Too little is known of this car, so the figures are those of an ordinary one" + sayLayout(a.Layout)
	case figures.OneFigure:
		var parts []string
		for _, v := range a.Values {
			parts = append(parts, strings.TrimSpace(unit.Show(v.Of, v.Value, imperial)+" "+v.End))
		}
		return fmt.Sprintf("%s %s (estimate).", say.Capital(a.Name), strings.Join(parts, ", "))
	case figures.NominalDampers:
		return "Dampers, " + ends + ": damping ratio 0.25 at full soft to 1.0 at full hard, rebound twice bump, less than half beyond 60 mm/s of the shaft (estimate; a force table takes its place)."
	case figures.BumpInMiddle:
		return "The " + ends + " bump, which no click turns: that of a damper in the middle (estimate)."
	case figures.ClicksBySpeed:
		return "The " + ends + " low-speed clicks turn the damping up to 60 mm/s of the shaft, the high-speed clicks the slope beyond (estimate)."
	case figures.TableEnds:
		return fmt.Sprintf("The %s force table goes from click %d to %d: beyond that the nearest one holds (estimate).", ends, a.Between[0], a.Between[1])
	case figures.OneColumn:
		return "The " + ends + " force table has one column of clicks: low-speed clicks are read up to 60 mm/s of the shaft, high-speed clicks beyond (estimate)."
	case figures.RigidBody:
		return "Roll centres, links and inertias of the body: estimate, nobody measures them."
	}
	return ""
}

// endsOf names the ends that an assumption is about: "front and rear".
func endsOf(a figures.Assumption) string {
	var ends []string
	for axle := range tuning.Axle(tuning.Axles) {
		if a.Ends[axle] {
			ends = append(ends, axle.String())
		}
	}
	return strings.Join(ends, " and ")
}

// sayLayout says which ordinary car is meant, and where its figures come from.
func sayLayout(l figures.Layout) string {
	return fmt.Sprintf(" with its engine %s, %s drive and %s tyres, from memory and not measured.",
		map[tuning.Engine]string{tuning.FrontEngine: "in front", tuning.MidEngine: "amidships", tuning.RearEngine: "behind"}[l.Engine],
		map[tuning.Drive]string{tuning.FrontDrive: "front-wheel", tuning.RearDrive: "rear-wheel", tuning.FourDrive: "four-wheel"}[l.Drive],
		l.Tyre)
}
