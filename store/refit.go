package store

import (
	"context"
	"slices"
	"time"

	"detent/tuning"
)

// What a refit changed, as the record keeps it. Dampers are changes of reason
// ByFitting.
const (
	Tyres   = "tyres"
	Springs = "springs"
)

// Refit notes that a car got other tyres or springs: what was tried before
// weighs less from then on.
func (b *Book) Refit(ctx context.Context, car int64, what string) error {
	if err := b.exec(ctx, `insert into refits (car, at, what) values ($1, $2, $3)`, car, b.now, what); err != nil {
		return err
	}
	return b.sumTries(ctx, car)
}

// refitEdited notes what an edited car has that it did not have before. To tell
// what was not known before is no refit.
func (b *Book) refitEdited(ctx context.Context, was, is tuning.Car) error {
	if was.Tyre != "" && is.Tyre != "" && was.Tyre != is.Tyre {
		if err := b.Refit(ctx, is.ID, Tyres); err != nil {
			return err
		}
	}
	for axle := range tuning.Axle(tuning.Axles) {
		before, now := was.Ends[axle].Spring, is.Ends[axle].Spring
		if before != 0 && now != 0 && before != now {
			return b.Refit(ctx, is.ID, Springs)
		}
	}
	return nil
}

// refits lists when a car got other tyres, springs or dampers, oldest first:
// what changed at one moment is one refit.
func (b *Book) refits(ctx context.Context, car int64) (at []time.Time, err error) {
	err = b.list(ctx, &at, `
		select at from refits where car = $1
		union select at from changes where car = $1 and reason = 'fitted'`, car)
	slices.SortFunc(at, time.Time.Compare)
	return at, err
}
