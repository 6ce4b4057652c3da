package main

import (
	"context"
	"errors"
	"fmt"
	"time"

	"detent/bot"
	"detent/bot/clubroom"
	"detent/bot/coaching"
	"detent/bot/garage"
	"detent/bot/notebook"
	"detent/bot/season"
	"detent/store"
	"detent/store/localpg"
	"detent/tuning"
)

// lines are all that can be asked.
var lines = bot.NewCatalogue(garage.Commands(), notebook.Commands(), season.Commands(), coaching.Commands(), clubroom.Commands())

// records joins the store and the conversation, which do not know each other.
type records struct{ db *store.DB }

func (r records) Read(ctx context.Context, who tuning.Who, now time.Time, fn func(bot.Book) error) error {
	return r.db.Read(ctx, who, now, func(b *store.Book) error { return fn(b) })
}

func (r records) Once(ctx context.Context, who tuning.Who, now time.Time, id string, fn func(bot.Book) (bot.Reply, error)) (bot.Reply, error) {
	kept, err := r.db.Once(ctx, who, now, id, func(b *store.Book) ([]byte, error) {
		reply, err := fn(b)
		switch tuning.KindOf(err) {
		case "":
			return pack(reply)
		case tuning.Internal:
			return nil, err
		}
		refusal, failed := pack(bot.Refuse(err))
		if failed != nil {
			return nil, failed
		}
		return nil, &store.Refused{Reply: refusal}
	})
	if _, withheld := errors.AsType[store.Withheld](err); withheld {
		return bot.Reply{}, bot.ErrCoachingEnded
	}
	if err != nil {
		return bot.Reply{}, err
	}
	return unpack(kept)
}

// opening is a way to open the record: by a URL that was given, or on the
// private server.
type opening struct {
	given, private func(context.Context, string) (*store.DB, error)
}

var (
	toServe    = opening{store.Open, store.OpenPrivate}
	toRehearse = opening{store.Rehearse, store.RehearsePrivate} // at another time than now
)

// atTime is how the record is opened for a time that was named, nil for now.
func atTime(named *time.Time) opening {
	if named == nil {
		return toServe
	}
	return toRehearse
}

// open opens the configured database, starting the private one when none is
// named. The caller closes it.
func (c *Config) open(ctx context.Context, way opening) (db *store.DB, close func() error, err error) {
	url, opened := c.DatabaseURL, way.given
	stop, private := func() error { return nil }, ""
	if url == "" {
		dir, err := c.dataFolder()
		if err != nil {
			return nil, nil, err
		}
		server, err := localpg.Start(ctx, dir)
		if err != nil {
			return nil, nil, fmt.Errorf("the private database did not start: %w", err)
		}
		url, stop, private, opened = server.URL(databaseName), server.Close, dir, way.private
	}
	db, err = opened(ctx, url)
	if err != nil {
		stop()
		return nil, nil, asWrongUse(nameDisk(err, private))
	}
	return db, func() error { db.Close(); return stop() }, nil
}

// databaseName is the database on the private server.
const databaseName = "detent"
