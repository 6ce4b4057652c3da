package main

import (
	"context"
	"log/slog"
	"sync"
	"time"

	"detent/bot"
	"detent/bot/remind"
	"detent/store"
	"detent/tuning/calendar"
)

// dryRun is a heartbeat that goes through everything that is due, once, and
// leaves the record as it is. It logs what would be dropped.
func dryRun(db *store.DB, messenger remind.Messenger, now func() time.Time, log *slog.Logger) *remind.Heartbeat {
	return &remind.Heartbeat{
		Timetable: &dryTimetable{DB: db}, Messenger: messenger, Digests: dryDigests{digests{db, now}}, Guides: dryGuides{guides{db, now}}, Memories: memories{db, now},
		Pace: remind.NewPace(), Now: now, Log: log,
	}
}

// dryTimetable shows what is due and does not record what comes of it.
type dryTimetable struct {
	*store.DB // for what is only read
	seen      sync.Once
}

func (d *dryTimetable) Claim(ctx context.Context, now time.Time, place string, _ time.Duration, _ int) (due []calendar.Due, err error) {
	d.seen.Do(func() { due, err = d.Due(ctx, now, place) })
	return due, err
}

func (*dryTimetable) Settle(context.Context, time.Time, calendar.Due, calendar.Outcome, string, calendar.Due) error {
	return nil
}

func (*dryTimetable) Postpone(context.Context, time.Time, calendar.Due, time.Time, string) error {
	return nil
}

func (*dryTimetable) CloseDirect(context.Context, time.Time, string, string) error { return nil }

// dryDigests and dryGuides tell the same as the real ones and record nothing.
type dryDigests struct{ digests }

func (dryDigests) Delivered(context.Context, string, string, bot.Digest) error { return nil }

type dryGuides struct{ guides }

func (dryGuides) Posted(context.Context, string, int64, string) error { return nil }
