package main

import (
	"bytes"
	"context"
	"crypto/rand"
	"time"

	"detent/bot"
	"detent/store"
	"detent/tuning"
)

// notices are what organisers were told, as the record has it: a notice is a
// request that is answered once, so it is remembered for as long as requests
// are, by every process.
type notices struct{ db *store.DB }

func (n notices) First(ctx context.Context, now time.Time, club, person, what string) (bool, error) {
	who := tuning.Who{Club: club, Person: person}
	var member tuning.Member
	err := records(n).Read(ctx, who, now, func(b bot.Book) (err error) {
		member, err = b.Member(ctx, person)
		return err
	})
	if err != nil || member.Name == "" || member.NoDirect { // a request would bring them back, or let messages to them in
		return false, err
	}
	mine := []byte(rand.Text())
	kept, err := n.db.Once(ctx, who, now, "notice "+what, func(*store.Book) ([]byte, error) { return mine, nil })
	return err == nil && bytes.Equal(kept, mine), err
}
