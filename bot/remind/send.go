package remind

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"strconv"
	"time"

	"detent/tuning/calendar"
)

// send sends a letter to whom it is for. Where a person takes no direct
// messages it goes to the club's channel, if it is for others to read.
func (e *errand) send(ctx context.Context, l letter) (note string, err error) {
	ctx, cancel := context.WithTimeout(ctx, sending)
	defer cancel()
	person, channel, name := e.due.Person, e.occasion.Club.Channel, nonce(e.due)
	if person != "" && !e.occasion.Member.NoDirect {
		err := e.Messenger.Direct(ctx, e.due.Club, person, l.direct, name)
		if !errors.Is(err, ErrClosed) {
			return "", err
		}
		if err := e.Timetable.CloseDirect(ctx, e.Now(), e.due.Club, person); err != nil {
			return "", err
		}
	}
	switch {
	case l.public == nil:
		return "", ErrClosed
	case channel == "" && person != "":
		return "", fmt.Errorf("%w, and the club has no channel", ErrClosed)
	case channel == "":
		return "", fmt.Errorf("%w: the club has none", ErrRefused)
	case person == "":
		return "", e.post(ctx, channel, *l.public, name)
	}
	return "in the club's channel", e.post(ctx, channel, *l.public, name, person)
}

const (
	shortest = 5 * time.Second
	longest  = time.Hour
)

// pause is how long to wait after so many attempts: twice as long each time,
// and of that a random half, so that what failed together does not come back
// together.
func pause(attempts int) time.Duration {
	d := shortest << min(attempts-1, 20)
	d = min(d, longest)
	return d/2 + rand.N(d/2)
}

// nonce names the message of a due thing: the same however often it is tried,
// and another when it falls due again. It is at most 20 characters.
func nonce(d calendar.Due) string {
	return strconv.FormatInt(d.ID, 36) + "-" + strconv.FormatInt(d.At.Unix(), 36)
}
