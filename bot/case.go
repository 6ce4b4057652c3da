package bot

import (
	"context"
	"slices"
	"strconv"
	"strings"

	"detent/tuning"
	"detent/tuning/calendar"
)

// theCase reads the case of the car that the line names, or of the main car.
func (c Call) theCase(ctx context.Context) (tuning.Case, error) {
	k, err := c.Book.Case(ctx, c.owner(), c.Args.Text("car"))
	k.History.ChecksDue = c.checksDue(k)
	return k, c.nearestCar(ctx, err)
}

// turnable is theCase for a line that turns clicks: refused for a car that is
// retired, and while the driver's last words speak of a fault.
func (c Call) turnable(ctx context.Context) (tuning.Case, error) {
	k, err := c.running(ctx)
	if err == nil {
		err = sound(k.Car, k.History.LastNotes())
	}
	return k, err
}

// sound refuses to turn clicks on a car that may be broken, going by the
// driver's last notes.
func sound(car tuning.Car, notes string) error {
	if word := tuning.Fault(notes); word != "" {
		return tuning.Problemf(tuning.Conflict, "Your last notes on %s say %q: no clicks until it has been inspected; then record how it feels with /feel.", car.Name, word)
	}
	return nil
}

// running is theCase, refused for a car that is retired.
func (c Call) running(ctx context.Context) (tuning.Case, error) {
	k, err := c.theCase(ctx)
	if err == nil && k.Car.Retired {
		err = tuning.Problemf(tuning.Conflict, "%s is retired: /car main brings it back.", k.Car.Name)
	}
	return k, err
}

// checksDue tells whether the checks before any click were not shown yet: at
// the event that the car is at, otherwise today.
func (c Call) checksDue(k tuning.Case) bool {
	if k.Event.ID != 0 {
		return k.History.AdviceEvent != k.Event.ID
	}
	return !calendar.SameDay(k.History.LastAdvice, c.now(), calendar.ClubZone(c.Club))
}

// theCar reads the car that the line names, or the main car.
func (c Call) theCar(ctx context.Context) (tuning.Car, error) {
	car, err := c.Book.Car(ctx, c.owner(), c.Args.Text("car"))
	return car, c.nearestCar(ctx, err)
}

// nearestCar adds the nearest name to the refusal of a car that is not there.
func (c Call) nearestCar(ctx context.Context, err error) error {
	name := c.Args.Text("car")
	if tuning.KindOf(err) != tuning.NotFound {
		return err
	}
	cars, failed := c.Book.Cars(ctx, c.owner())
	switch {
	case failed != nil:
		return failed
	case name == "" && len(cars) > 0 && len(tuning.Running(cars)) == 0:
		return tuning.Problemf(tuning.NotFound, "Your cars are all retired: /car main car:%s brings one back.", Quote(cars[0].Name))
	case name == "":
		return err
	}
	var names []string
	for _, car := range cars {
		names = append(names, car.Name)
	}
	return tuning.Problemf(tuning.NotFound, "You have no car called %q%s: /car list shows the names.", name, didYouMean(name, names))
}

// carNumber begins a car's number where its name could stand.
const carNumber = "#"

// byName puts the name of a car where its number stands, unless a car has that
// for its name.
func byName(ctx context.Context, garage Garage, owner string, args Args) error {
	digits, ok := strings.CutPrefix(args.Text("car"), carNumber)
	number, err := strconv.ParseInt(digits, 10, 64)
	if !ok || err != nil {
		return nil
	}
	cars, err := garage.Cars(ctx, owner)
	if err != nil {
		return err
	}
	named := func(c tuning.Car) bool { return c.Name == args.Text("car") }
	if i := slices.IndexFunc(cars, func(c tuning.Car) bool { return c.ID == number }); i >= 0 && !slices.ContainsFunc(cars, named) {
		args["car"] = cars[i].Name
	}
	return nil
}
