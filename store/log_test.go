package store_test

import (
	"context"
	"errors"
	"testing"

	"detent/store"
	"detent/tuning"
)

// The log interleaves what was turned, felt and noted, page by page, and
// everything that was measured is read back.
func TestLogInterleaves(t *testing.T) {
	r := open(t)
	car := r.car(sam, "Blue hatch") // two fittings
	exit := -1
	felt := tuning.Feel{Car: car.ID, Person: sam.Person, Grip: 7, Exit: &exit, Notes: "turns in now",
		Hot: tuning.Pressures{2.1e5, 2.1e5, 0, 2e5}, Conditions: tuning.ItWasDamp, Air: 291.15, Track: 297}
	note := tuning.CarNote{Car: car.ID, Person: sam.Person, What: tuning.AboutTyres, Text: "new set", Heat: tuning.TakenCold, Pressures: tuning.Pressures{1.9e5}}
	for range 4 {
		r.once(sam, func(ctx context.Context, b *store.Book) error {
			c, err := b.Case(ctx, sam.Person, "")
			if err != nil {
				return err
			}
			change, err := b.Record(ctx, c.Car, byHand(turn(c, tuning.Rebound, -1)))
			if err != nil {
				return err
			}
			felt.Change = change.ID
			if felt, err = b.SaveFeel(ctx, felt); err != nil {
				return err
			}
			note, err = b.SaveCarNote(ctx, note)
			return err
		})
	}
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		first, more, err := b.Log(ctx, car, 1)
		second, none, err2 := b.Log(ctx, car, 2)
		third, _, err3 := b.Log(ctx, car, 3)
		if err := errors.Join(err, err2, err3); err != nil {
			return err
		}
		if len(first) != 10 || !more || len(second) != 4 || none || len(third) != 0 {
			t.Fatalf("the pages have %d, %d and %d lines", len(first), len(second), len(third))
		}
		same(t, *first[0].Note, note)
		kinds := map[string]int{}
		seen := map[int64]bool{}
		for _, e := range append(first, second...) {
			switch {
			case e.Feel != nil:
				kinds["feel"]++
				if e.Feel.ID == felt.ID {
					same(t, *e.Feel, felt)
				}
			case e.Note != nil:
				kinds["note"]++
			default:
				kinds["change"]++
				if seen[e.Change.ID] || len(e.Change.Moves) == 0 || e.ByName != sam.Name {
					t.Errorf("a change comes twice or without its moves: %+v", e)
				}
				seen[e.Change.ID] = true
			}
		}
		same(t, kinds, map[string]int{"feel": 4, "note": 4, "change": 6})
		notes, err := b.CarNotes(ctx, car, 2)
		if len(notes) != 2 || notes[0].ID != note.ID {
			t.Errorf("the newest notes are %+v", notes)
		}
		return err
	})
}
