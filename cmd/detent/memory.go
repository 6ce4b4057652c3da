package main

import (
	"context"
	"time"

	"detent/bot"
	"detent/bot/season"
	"detent/store"
	"detent/tuning"
)

// memories are what places remember of cars, as the record has it.
type memories struct {
	db  *store.DB
	now func() time.Time
}

func (m memories) Memory(ctx context.Context, club tuning.Club, event tuning.Event, car tuning.Car) (lines []string, err error) {
	err = records{m.db}.Read(ctx, tuning.Who{Club: club.Key}, m.now(), func(b bot.Book) (err error) {
		lines, err = season.Memory(ctx, b, club, event, car)
		return err
	})
	return lines, err
}
