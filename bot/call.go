package bot

import (
	"context"
	"time"

	"detent/tuning"
	"detent/tuning/calendar"
)

// Call is one ask of a command: who, what and when, and whose settings hold. A
// room puts the part of the record beside it that its commands need.
type Call struct {
	Ask       Ask
	Member    tuning.Member
	Club      tuning.Club
	Catalogue *Catalogue // every line that can be asked, for /help

	instead func(ctx context.Context, line Line) (Reply, error)
}

// Instead answers another line in place of the one that was asked, on the same
// book. A room has no other way to what another one answers.
func (c Call) Instead(ctx context.Context, text string) (Reply, error) {
	line, err := ParseLine(text)
	if err != nil {
		return Reply{}, err
	}
	return c.instead(ctx, line)
}

// Owner is the key of the person whose things a call is about.
func (c Call) Owner() string { return c.Ask.Who.Person }

// Now is when it was asked.
func (c Call) Now() time.Time { return c.Ask.At }

// Zone is the club's time zone.
func (c Call) Zone() *time.Location { return calendar.ClubZone(c.Club) }

// Imperial tells in which units the person reads.
func (c Call) Imperial() bool {
	return c.Member.Units == tuning.Imperial || (c.Member.Units == "" && c.Club.Units == tuning.Imperial)
}
