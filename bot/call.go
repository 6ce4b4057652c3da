package bot

import (
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
