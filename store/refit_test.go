package store_test

import (
	"context"
	"testing"

	"detent/store"
	"detent/tuning"
)

// Other tyres and springs are refits; what was not known before is only told.
func TestEditsThatAreRefits(t *testing.T) {
	r := open(t)
	car := r.car(sam, "Blue hatch")
	edit := func(change func(*tuning.Car), want int) {
		t.Helper()
		change(&car)
		r.once(sam, func(ctx context.Context, b *store.Book) error {
			_, err := b.SaveCar(ctx, car)
			return err
		})
		if n := r.count("refits"); n != want {
			t.Errorf("%d refits are kept, want %d", n, want)
		}
	}
	edit(func(c *tuning.Car) { c.Tyre, c.Ends[tuning.Rear].Spring = tuning.RoadTyre, 50e3 }, 0)
	edit(func(c *tuning.Car) { c.Name = "Old hatch" }, 0)
	edit(func(c *tuning.Car) { c.Tyre = tuning.SemiSlick }, 1)
	edit(func(c *tuning.Car) { c.Ends[tuning.Rear].Spring = 60e3 }, 2)
	edit(func(c *tuning.Car) { c.Ends[tuning.Rear].Spring = 0 }, 2)
}

// A note of other tyres or springs is a refit; a note of anything else is not.
func TestNotesThatAreRefits(t *testing.T) {
	r := open(t)
	car := r.car(sam, "Blue hatch")
	for _, c := range []struct {
		what tuning.Subject
		want int
	}{{tuning.AboutPressures, 0}, {tuning.AboutTyres, 1}, {tuning.AboutBars, 1}, {tuning.AboutSprings, 2}} {
		r.once(sam, func(ctx context.Context, b *store.Book) error {
			_, err := b.SaveCarNote(ctx, tuning.CarNote{Car: car.ID, What: c.what, Text: "changed"})
			return err
		})
		if n := r.count("refits"); n != c.want {
			t.Errorf("after a note of %s %d refits are kept, want %d", c.what, n, c.want)
		}
	}
}
