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
	return k, err
}

// sameDay tells whether two moments fall on one day of the club.
func sameDay(a, b time.Time, zone *time.Location) bool {
	ay, am, ad := a.In(zone).Date()
	by, bm, bd := b.In(zone).Date()
	return !a.IsZero() && ay == by && am == bm && ad == bd
}
