package main

import (
	"context"
	"errors"
	"time"

	"detent/bot"
	"detent/tuning"
)

// digests make a coach's weekly digest the way the coach would: by asking for
// it.
type digests struct{ router *bot.Router }

// Digest asks for the week that ends at to. It returns false when there is
// nothing to tell.
func (d digests) Digest(ctx context.Context, club, coach string, _, to time.Time) (text string, ok bool, err error) {
	reply := d.router.Answer(ctx, bot.Ask{
		ID: "digest-" + to.UTC().Format("2006-01-02"), At: to, Line: bot.Line{Words: []string{"coach", "week"}},
		Who: tuning.Who{Club: club, Person: coach, Role: tuning.CoachRole},
	})
	if reply.Problem != nil {
		return "", false, errors.New(reply.Problem.Say)
	}
	return reply.Title + "\n" + reply.Text, true, nil
}
