// Package remind is the heartbeat: it claims what is due, sends it and settles
// it. The truth is the timetable in the database; the timer only asks to look
// at it, so nothing is lost when a beat is, and any number of processes may
// beat at once.
//
// Sending happens outside any transaction. A process that dies between sending
// and settling leaves a lease that runs out, and whoever claims the thing then
// sends it once more under the same name (the nonce), by which the platform
// knows that it has it.
package remind

import (
	"context"
	"errors"
	"time"

	"detent/bot"
	"detent/tuning"
	"detent/tuning/calendar"
)

// Timetable is the record of what is due. A claim that is settled or postponed
// after its lease has gone to another is refused with an error.
type Timetable interface {
	// Claim leases up to most things that are due at now, of the clubs whose
	// keys begin with place. Nobody else gets them before the lease ends.
	Claim(ctx context.Context, now time.Time, place string, lease time.Duration, most int) ([]calendar.Due, error)
	// Occasion reads what stands around a thing at now.
	Occasion(ctx context.Context, now time.Time, due calendar.Due) (calendar.Occasion, error)
	// Settle ends a claim; next, unless zero, is when the thing is due again.
	Settle(ctx context.Context, now time.Time, due calendar.Due, outcome calendar.Outcome, note string, next calendar.Due) error
	// Postpone ends a claim, to be claimed again later.
	Postpone(ctx context.Context, now time.Time, due calendar.Due, to time.Time, note string) error
	// CloseDirect notes that a person takes no direct messages. It holds until
	// they do something themselves.
	CloseDirect(ctx context.Context, now time.Time, club, person string) error
}

// Messenger sends. What is sent again under the same nonce within some minutes
// arrives once. It returns ErrClosed or ErrRefused where sending again does
// not help, and after any other error, a *Barred among them, the message is
// tried again later.
type Messenger interface {
	// Direct sends a message to one person of a club.
	Direct(ctx context.Context, club, person string, message bot.Reply, nonce string) error
	// Post sends a message to a channel and calls the people meant by it.
	Post(ctx context.Context, channel string, message bot.Reply, nonce string, meant ...string) error
}

// What a Messenger may answer for good.
var (
	ErrClosed  = errors.New("they take no direct messages")
	ErrRefused = errors.New("nothing can be written there")
)

// Digests tell coaches of their students.
type Digests interface {
	// Digest returns what a coach should know of a span of time.
	Digest(ctx context.Context, club, coach string, from, to time.Time) (bot.Digest, error)
	// Delivered notes that the coach was shown a digest.
	Delivered(ctx context.Context, club, coach string, digest bot.Digest) error
}

// Memories know what worked before at the place of an event.
type Memories interface {
	// Memory says in short lines what the place remembers of a car of a club's,
	// what matters most first; nothing where it never was there.
	Memory(ctx context.Context, club tuning.Club, event tuning.Event, car tuning.Car) ([]string, error)
}

// Guides make the guide of an event.
type Guides interface {
	// Guide returns the guide as it is now, and a hash of it, which is "" when
	// it is as it was last posted.
	Guide(ctx context.Context, club string, event int64) (guide bot.Reply, hash string, err error)
	// Posted notes which guide was posted.
	Posted(ctx context.Context, club string, event int64, hash string) error
}
