package notebook_test

import (
	"context"
	"testing"

	"detent/bot"
	"detent/bot/bottest"
	"detent/bot/notebook"
	"detent/tuning"
)

// shelf is a record of one member's cars and notes, in memory.
type shelf struct {
	bottest.Settings
	cars  []tuning.Car
	notes []tuning.CarNote
}

// newShelf has a hatch, which is Robin's main car.
func newShelf(t *testing.T) (*shelf, bottest.Person) {
	box := &shelf{Settings: bottest.NewSettings(), cars: []tuning.Car{{ID: 1, Name: "Blue hatch", Owner: "robin", Main: true}}}
	return box, bottest.Person{T: t, Commands: notebook.Commands(), Book: box}
}

func (b *shelf) Cars(context.Context, string) ([]tuning.Car, error) { return b.cars, nil }

func (b *shelf) Car(_ context.Context, _, name string) (tuning.Car, error) {
	for _, c := range b.cars {
		if c.Name == name || name == "" && c.Main {
			return c, nil
		}
	}
	return tuning.Car{}, bot.Problemf(tuning.NotFound, "There is no car yet.")
}

func (b *shelf) SaveCarNote(_ context.Context, note tuning.CarNote) (tuning.CarNote, error) {
	note.At = bottest.Morning
	b.notes = append(b.notes, note)
	return note, nil
}
