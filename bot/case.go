package bot

import (
	"context"
	"time"

	"detent/tuning"
)

// theCase reads the case of the car that the line names, or of the main car.
func (c Call) theCase(ctx context.Context) (tuning.Case, error) {
	k, err := c.Book.Case(ctx, c.owner(), c.Args.Text("car"))
	k.History.ChecksDue = !sameDay(k.History.LastAdvice, c.now(), zoneOf(c.Club))
	return k, c.nearestCar(ctx, err)
}

// theCar reads the car that the line names, or the main car.
func (c Call) theCar(ctx context.Context) (tuning.Car, error) {
	car, err := c.Book.Car(ctx, c.owner(), c.Args.Text("car"))
	return car, c.nearestCar(ctx, err)
}

// nearestCar adds the nearest name to the refusal of a car that is not there.
func (c Call) nearestCar(ctx context.Context, err error) error {
	name := c.Args.Text("car")
	if tuning.KindOf(err) != tuning.NotFound || name == "" {
		return err
	}
	cars, failed := c.Book.Cars(ctx, c.owner())
	if failed != nil {
		return failed
	}
	var names []string
	for _, car := range cars {
		names = append(names, car.Name)
	}
	return tuning.Problemf(tuning.NotFound, "You have no car called %q%s: /car list shows the names.", name, didYouMean(name, names))
}

// sameDay tells whether two moments fall on one day of the club.
func sameDay(a, b time.Time, zone *time.Location) bool {
	ay, am, ad := a.In(zone).Date()
	by, bm, bd := b.In(zone).Date()
	return !a.IsZero() && ay == by && am == bm && ad == bd
}
