package remind

import (
	"context"
	"errors"
	"fmt"
	"hash/fnv"
	"strconv"
	"strings"
	"time"

	"detent/bot"
	"detent/bot/say"
)

// Barred is a channel that nothing can be posted in until somebody mends it:
// it is gone, or permissions are missing there, or neither is known. What was
// to be posted is tried again while it is of use.
type Barred struct {
	Channel string // its number
	Gone    bool
	Missing []string // permissions, by the names that the platform shows
}

func (b *Barred) Error() string {
	switch {
	case b.Gone:
		return "the club's channel is gone"
	case len(b.Missing) > 0:
		return "permissions are missing in the club's channel: " + strings.Join(b.Missing, ", ")
	}
	return "the platform lets nothing be posted in the club's channel"
}

// Notices remembers what organisers were told.
type Notices interface {
	// First tells whether a person of a club is to be told something, named
	// by a text, for the first time. They are told at most once, whichever
	// process asks; who takes no direct messages is not to be told at all.
	First(ctx context.Context, now time.Time, club, person, what string) (bool, error)
}

// post posts a message. When the channel is barred, the organiser who made the
// event is told what is missing there.
func (e *errand) post(ctx context.Context, channel string, message bot.Reply, name string, meant ...string) error {
	err := e.Messenger.Post(ctx, channel, message, name, meant...)
	if barred, ok := errors.AsType[*Barred](err); ok {
		if failed := e.tellOrganiser(ctx, barred); failed != nil {
			e.log.Warn("the organiser was not told what is missing in the channel", "err", failed)
		}
	}
	return err
}

// tellOrganiser tells of a barred channel once an event.
func (e *errand) tellOrganiser(ctx context.Context, b *Barred) error {
	organiser := e.occasion.Event.By
	if organiser == "" || e.Notices == nil {
		return errors.New("nobody is known who could be told")
	}
	what := fmt.Sprintf("barred %d %s %v %s", e.due.Event, b.Channel, b.Gone, strings.Join(b.Missing, ","))
	first, err := e.Notices.First(ctx, e.Now(), e.due.Club, organiser, what)
	if err != nil || !first {
		return err
	}
	hash := fnv.New64a()
	hash.Write([]byte(what))
	return e.Messenger.Direct(ctx, e.due.Club, organiser, b.letter(e.occasion.Event.Name), strconv.FormatUint(hash.Sum64(), 36))
}

// letter says what is wrong with the channel and how to mend it.
func (b *Barred) letter(event string) bot.Reply {
	title, text, note := say.Barred(event, bot.PlaceMark+b.Channel, b.Gone, b.Missing)
	return bot.Reply{Title: title, Text: text, Notes: []string{note}}
}
