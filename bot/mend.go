package bot

import "detent/tuning"

// AddCar is the button of whoever has no car.
var AddCar = Button("Add a car", "/car add")

// Dampers is the button that tells what dampers a car has, at the end where
// they are not known.
func Dampers(car tuning.Car) Action {
	end := "both"
	for axle := range tuning.Axle(tuning.Axles) {
		if car.Dampers[axle].Fitted() {
			other := tuning.Axle(tuning.Axles-1) - axle
			end = other.String()
		}
	}
	return Button("Dampers", "/damper fit axle:"+end, OfCar(car))
}

// RequireDampers refuses a car whose dampers are not known at both ends, with
// the button that tells them.
func RequireDampers(car tuning.Car) error {
	err := car.Fitted()
	if err == nil {
		return nil
	}
	p := &Problem{Kind: tuning.KindOf(err), Say: err.Error(), Err: err}
	if told, ok := ProblemOf(err); ok {
		p.Say = told.Say
	}
	p.Actions = []Action{Dampers(car)}
	return p
}
