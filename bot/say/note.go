package say

import (
	"fmt"

	"detent/tuning"
)

// sayNote is what the judgement notes of a remedy that it left out or cut short,
// and what to expect of the adjusters; "" for another fact.
func sayNote(car tuning.Car, f tuning.Fact) string {
	switch f.Kind {
	case tuning.NoClicks:
		return "No click answers this: go through the checks."
	case tuning.ReadAs:
		return fmt.Sprintf("I read this as happening on %s, where it belongs.", f.Where)
	case tuning.TwoTries:
		return "Two tries in that direction brought no gain: stop turning clicks for this and go through the checks."
	case tuning.MoveTogether:
		if f.Part == tuning.WholeCar {
			return "The one-way adjusters move bump and rebound together: expect both to change."
		}
		return fmt.Sprintf("The %s one-way adjuster moves bump and rebound together: expect both to change.", f.Part)
	case tuning.AtStop:
		return fmt.Sprintf("The %s is at its %s stop already, so that remedy is left out.", sayTurning(car, f), stopOf(f.Turn))
	case tuning.StaysAtStop:
		return fmt.Sprintf("The %s is at its %s stop already and stays.", sayTurning(car, f), stopOf(f.Turn))
	case tuning.NearStop:
		if f.Part == tuning.WholeCar {
			return fmt.Sprintf("A corner is near its %s stop: that remedy is only the %d left, the same at all four.", stopOf(f.Turn), f.Clicks)
		}
		return fmt.Sprintf("The %s is near its %s stop: that remedy is only the %d left.", sayTurning(car, f), stopOf(f.Turn), f.Clicks)
	case tuning.NoneForJob:
		return fmt.Sprintf("The %s damper has no adjuster for %s.", f.Axle, f.Job)
	}
	return ""
}

// sayTurning names what a note is about as the car's dampers call it: "front
// rebound", or of the whole car "bump".
func sayTurning(car tuning.Car, f tuning.Fact) string {
	switch {
	case f.Job != "":
		return string(f.Job)
	case f.Part == tuning.WholeCar:
		return car.Dampers[f.Axle].Label(f.Adjuster)
	}
	axle := f.Part.Axles()[0]
	return fmt.Sprintf("%s %s", axle, car.Dampers[axle].Label(f.Adjuster))
}

// stopOf is the stop that a turn ends at.
func stopOf(t tuning.Turn) string {
	if t == tuning.Stiffer {
		return "hard"
	}
	return "soft"
}
