package bot

import (
	"context"
	"time"

	"detent/tuning"
	"detent/tuning/learn"
)

// CarSeasons reads a year of a car.
type CarSeasons interface {
	// CarSeason reads what the record holds of a car from a moment to another, and
	// where its adjusters stood before.
	CarSeason(ctx context.Context, car tuning.Car, from, to time.Time) (tuning.CarSeason, error)
	// TriesOf lists the tries of a car that were judged in that time, oldest first.
	TriesOf(ctx context.Context, car tuning.Car, from, to time.Time) ([]learn.Try, error)
}

// ClubSeasons reads a year of the club.
type ClubSeasons interface {
	// ClubSeason counts what the record holds of the club from a moment to another.
	// It names nobody.
	ClubSeason(ctx context.Context, from, to time.Time) (tuning.ClubSeason, error)
	// TriesIn lists the club's tries that were judged in that time, oldest first.
	TriesIn(ctx context.Context, from, to time.Time) ([]learn.Try, error)
}
