package bot

import (
	"context"

	"detent/tuning"
)

// FindRunning is FindCase, refused for a car that is retired.
func (c Call) FindRunning(ctx context.Context, book CaseBook, name string) (tuning.Case, error) {
	k, err := c.FindCase(ctx, book, name)
	if err == nil && k.Car.Retired {
		err = Problemf(tuning.Conflict, "%s is retired: /car main brings it back.", k.Car.Name)
	}
	return k, err
}

// FindTurnable is FindCase for a line that turns clicks: refused for a car that
// is retired, and while the driver's last words speak of a fault.
func (c Call) FindTurnable(ctx context.Context, book CaseBook, name string) (tuning.Case, error) {
	k, err := c.FindRunning(ctx, book, name)
	if err == nil {
		err = c.CheckSound(k.Car, k.History.LastNotes())
	}
	return k, err
}

// CheckSound refuses to turn clicks on a car that may be broken, going by the
// driver's last notes.
func (Call) CheckSound(car tuning.Car, notes string) error {
	if word := tuning.Fault(notes); word != "" {
		return Problemf(tuning.Conflict, "Your last notes on %s say %q: no clicks until it has been inspected; then record how it feels with /feel.", car.Name, word)
	}
	return nil
}
