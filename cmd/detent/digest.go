package main

import (
	"context"
	"time"

	"detent/bot"
	"detent/bot/coaching"
	"detent/store"
	"detent/tuning"
)

// digests are the coaches' weekly digests as the record has them.
type digests struct {
	db  *store.DB
	now func() time.Time
}

func (d digests) Digest(ctx context.Context, club, coach string, from, to time.Time) (digest bot.Digest, err error) {
	err = records{d.db}.Read(ctx, tuning.Who{Club: club, Person: coach}, to, func(b bot.Book) (err error) {
		digest, err = coaching.Week(ctx, b, coach, from, to)
		return err
	})
	return digest, err
}

func (d digests) Delivered(ctx context.Context, club, coach string, digest bot.Digest) error {
	return d.db.Looked(ctx, d.now(), club, coach, digest.Students, coaching.WeekLook)
}
