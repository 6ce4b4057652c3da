package remind

import (
	"context"
	"errors"
	"log/slog"
	"time"

	"detent/tuning/calendar"
)

// mostAttempts bounds how often a thing is tried, over some eight hours.
const mostAttempts = 16

// errLate is a lease with too little left of it: another will claim the thing.
var errLate = errors.New("the lease is running out")

// errand is one claimed thing on its way.
type errand struct {
	*Heartbeat
	due      calendar.Due
	occasion calendar.Occasion
	leased   time.Time // until when the claim holds
	last     bool      // it does not fall due again
	log      *slog.Logger
}

// run sees the thing through: judged, written, sent, settled. After an error
// the claim runs out and the thing is claimed again.
func (e *errand) run(ctx context.Context) (err error) {
	if e.occasion, err = e.Timetable.Occasion(ctx, e.Now(), e.due); err != nil {
		return err
	}
	if over, err := e.judge(ctx); over || err != nil {
		return err
	}
	l, err := e.write(ctx)
	switch {
	case err != nil:
		return e.later(ctx, err)
	case l.empty:
		return e.end(ctx, calendar.Dropped, "there is nothing to tell")
	}
	if err := e.Pace.Wait(ctx); err != nil {
		return err
	}
	if e.leased.Sub(e.Now()) < spare {
		return errLate
	}
	note, err := e.send(ctx, l)
	switch {
	case err == nil:
		return e.sent(ctx, l, note)
	case ctx.Err() != nil: // stopped halfway
		return err
	case errors.Is(err, ErrClosed) || errors.Is(err, ErrRefused):
		return e.end(ctx, calendar.GaveUp, err.Error())
	}
	return e.later(ctx, err)
}

// judge ends or puts off what is not to be sent now, and tells whether it did.
func (e *errand) judge(ctx context.Context) (over bool, err error) {
	now := e.Now()
	if moot := e.due.Moot(e.occasion, now); moot != "" {
		return true, e.end(ctx, calendar.Dropped, moot)
	}
	ready, err := e.due.Ready(e.occasion, now)
	switch {
	case err != nil:
		return true, e.end(ctx, calendar.GaveUp, err.Error())
	case e.due.Attempts > mostAttempts:
		return true, e.end(ctx, calendar.GaveUp, "it was never seen through")
	case !ready.Before(e.due.Until):
		return true, e.end(ctx, calendar.Dropped, "no decent hour is left while it is of use")
	case ready.After(now):
		e.due.Attempts-- // this one does not count
		return true, e.Timetable.Postpone(ctx, now, e.due, ready, "waits for a decent hour")
	}
	return false, nil
}

// sent settles what was sent.
func (e *errand) sent(ctx context.Context, l letter, note string) error {
	ctx, cancel := finishing(ctx)
	defer cancel()
	if l.sent != nil {
		if err := l.sent(ctx); err != nil {
			return err
		}
	}
	return e.end(ctx, calendar.Sent, note)
}

// later postpones a thing that failed, or gives up when it has been tried often
// enough or would be of no use by then.
func (e *errand) later(ctx context.Context, why error) error {
	now := e.Now()
	to := now.Add(pause(e.due.Attempts))
	if e.due.Attempts >= mostAttempts || !to.Before(e.due.Until) {
		return e.end(ctx, calendar.GaveUp, why.Error())
	}
	e.log.Info("put off", "to", to, "why", why)
	ctx, cancel := finishing(ctx)
	defer cancel()
	return e.Timetable.Postpone(ctx, now, e.due, to, why.Error())
}

// end settles the claim. A digest falls due again the week after, unless it was
// the last.
func (e *errand) end(ctx context.Context, outcome calendar.Outcome, note string) error {
	switch outcome {
	case calendar.GaveUp:
		e.log.Warn("gave up", "why", note)
	case calendar.Dropped:
		e.log.Info("dropped", "why", note)
	}
	var next calendar.Due
	now := e.Now()
	if e.due.Kind == calendar.Digest && !e.last {
		next, _ = calendar.ForCoach(e.occasion.Club, e.due.Person, now) // zero if the zone is invalid
	}
	ctx, cancel := finishing(ctx)
	defer cancel()
	return e.Timetable.Settle(ctx, now, e.due, outcome, note, next)
}

// finishing is a context for what must still be done when ctx has ended.
func finishing(ctx context.Context) (context.Context, context.CancelFunc) {
	return context.WithTimeout(context.WithoutCancel(ctx), settling)
}
