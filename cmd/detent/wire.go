package main

import (
	"bytes"
	"context"
	"encoding/gob"
	"fmt"
	"time"

	"detent/bot"
	"detent/bot/clubroom"
	"detent/bot/coaching"
	"detent/bot/garage"
	"detent/bot/season"
	"detent/store"
	"detent/store/localpg"
	"detent/tuning"
)

// lines are all that can be asked.
var lines = bot.NewCatalogue(garage.Commands(), season.Commands(), coaching.Commands(), clubroom.Commands())

// records joins the store to the conversation, which do not know each other.
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
	if err != nil {
		return bot.Reply{}, err
	}
	return unpack(kept)
}

// pack keeps a reply whole, its picture and the words that JSON leaves out
// included.
func pack(reply bot.Reply) ([]byte, error) {
	var b bytes.Buffer
	err := gob.NewEncoder(&b).Encode(reply)
	return b.Bytes(), err
}

func unpack(kept []byte) (reply bot.Reply, err error) {
	err = gob.NewDecoder(bytes.NewReader(kept)).Decode(&reply)
	return reply, err
}

// open opens the configured database, starting the private one when none is
// named. The caller closes it.
func (c *Config) open(ctx context.Context) (db *store.DB, close func() error, err error) {
	url := c.DatabaseURL
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
		url, stop, private = server.URL(databaseName), server.Close, dir
	}
	db, err = store.Open(ctx, url)
	if err != nil {
		stop()
		return nil, nil, asWrongUse(nameDisk(err, private))
	}
	return db, func() error { db.Close(); return stop() }, nil
}

// databaseName is the database on the private server.
const databaseName = "detent"
