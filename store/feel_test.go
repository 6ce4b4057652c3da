package store_test

import (
	"context"
	"testing"

	"detent/store"
	"detent/tuning"
)

func TestFeelBelongsToTheLastChangeSinceFitting(t *testing.T) {
	r := open(t)
	car := r.car(sam, "Blue hatch")
	feel := func() (felt tuning.Feel) {
		r.once(sam, func(ctx context.Context, b *store.Book) (err error) {
			felt, err = b.SaveFeel(ctx, tuning.Feel{Car: car.ID, Grip: 6, Better: tuning.BetterNo})
			return err
		})
		return felt
	}
	if got := feel(); got.Change != 0 {
		t.Errorf("before any change it belongs to %d", got.Change)
	}
	var change tuning.Change
	r.once(sam, func(ctx context.Context, b *store.Book) (err error) {
		c, err := b.Case(ctx, sam.Person, "")
		if err != nil {
			return err
		}
		turned := byHand(turn(c, tuning.Rebound, -2))
		turned.Turned = true
		if change, err = b.Record(ctx, c.Car, turned); err != nil {
			return err
		}
		for i, m := range turned.Moves { // the record is corrected after it
			turned.Moves[i].From, turned.Moves[i].To = m.To, m.To-1
		}
		_, err = b.Record(ctx, c.Car, byHand(turned.Moves))
		return err
	})
	if got := feel(); got.Change != change.ID {
		t.Errorf("after change %d it belongs to %d", change.ID, got.Change)
	}
	r.once(sam, func(ctx context.Context, b *store.Book) error { return fit(ctx, b, &car, damper()) })
	if got := feel(); got.Change != 0 {
		t.Errorf("on other dampers it belongs to %d", got.Change)
	}
}
