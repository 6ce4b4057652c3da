package garage

import (
	"cmp"
	"context"

	"detent/bot"
	"detent/tuning"
)

// turnableCase is FindCase for a line that turns clicks: refused for a car that
// is retired, and while the driver's last words speak of a fault.
func (c call) turnableCase(ctx context.Context, name string) (tuning.Case, error) {
	k, err := c.runningCase(ctx, name)
	if err == nil {
		err = checkSound(k.Car, k.History.LastNotes())
	}
	return k, err
}

// checkSound refuses to turn clicks on a car that may be broken, going by the
// driver's last notes.
func checkSound(car tuning.Car, notes string) error {
	if word := tuning.Fault(notes); word != "" {
		return bot.Problemf(tuning.Conflict, "Your last notes on %s say %q: no clicks until it has been inspected; then record how it feels with /feel.", car.Name, word)
	}
	return nil
}

// runningCase is FindCase, refused for a car that is retired.
func (c call) runningCase(ctx context.Context, name string) (tuning.Case, error) {
	return c.runningCaseIn(ctx, c.Book, name)
}

// runningCaseIn is runningCase in another book than the whole record.
func (c call) runningCaseIn(ctx context.Context, book bot.CaseBook, name string) (tuning.Case, error) {
	k, err := c.FindCase(ctx, book, name)
	if err == nil && k.Car.Retired {
		err = bot.Problemf(tuning.Conflict, "%s is retired: /car main brings it back.", k.Car.Name)
	}
	return k, err
}

// weatherOption is the weather that an answer is for.
type weatherOption struct {
	Weather tuning.Weather `name:"weather" help:"the weather, when it is not the event's, or not dry"`
}

// at is the weather said, otherwise that of the event the car is at.
func (o weatherOption) at(k tuning.Case) tuning.Weather {
	return cmp.Or(o.Weather, k.Event.Weather.Known(), tuning.Dry)
}
