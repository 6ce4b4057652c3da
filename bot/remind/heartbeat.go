package remind

import (
	"context"
	"log/slog"
	"runtime/debug"
	"time"

	"github.com/robfig/cron/v3"
	"golang.org/x/sync/errgroup"
	"golang.org/x/time/rate"

	"detent/tuning/calendar"
)

const (
	// lease is for how long a claim holds. It is shorter than the platform
	// remembers a nonce, so that what a dead process sent is recognised.
	lease = time.Minute

	// spare is what must be left of a lease for sending to begin.
	spare = 35 * time.Second

	sending  = 15 * time.Second // the longest that sending a message takes
	settling = 10 * time.Second // and settling what came of it

	batch = 40 // how many are claimed at once
	hands = 8  // and how many of those are handed over side by side
)

// perSecond is how many things are handed over in a second. A direct message
// is two of the platform's fifty requests, so the rest is left for what people
// ask meanwhile.
const perSecond = 20

// NewPace returns the pace that the platform allows to one bot.
func NewPace() *rate.Limiter { return rate.NewLimiter(perSecond, 1) }

// Heartbeat sends what is due. Several may work on one timetable.
type Heartbeat struct {
	Timetable Timetable
	Messenger Messenger
	Digests   Digests  // nil when there are none
	Guides    Guides   // nil when there are none
	Memories  Memories // nil when there are none
	Notices   Notices  // nil where no organiser is told of anything
	Place     string   // whose clubs it serves, "" for those without a place
	Pace      *rate.Limiter
	Now       func() time.Time
	Log       *slog.Logger
}

// Run beats at an interval until ctx ends, and returns when what is in hand is
// settled.
func (h *Heartbeat) Run(ctx context.Context, every time.Duration) {
	timer := cron.New(cron.WithChain(cron.SkipIfStillRunning(cron.DiscardLogger)))
	timer.Schedule(cron.Every(every), cron.FuncJob(func() {
		if err := h.Drain(ctx); err != nil && ctx.Err() == nil {
			h.Log.Error("what is due cannot be looked up", "err", err)
		}
	}))
	timer.Start()
	<-ctx.Done()
	<-timer.Stop().Done()
}

// Drain beats until nothing is due.
func (h *Heartbeat) Drain(ctx context.Context) error {
	for ctx.Err() == nil {
		claimed, err := h.Beat(ctx)
		if err != nil || claimed < batch {
			return err
		}
	}
	return ctx.Err()
}

// Beat claims some of what is due, hands it over, and returns how many it
// claimed. An error of a single one is not returned: it is logged, and the thing
// is noted in the timetable or claimed again.
func (h *Heartbeat) Beat(ctx context.Context) (claimed int, err error) {
	now := h.Now().Round(0) // by the wall clock, which goes on while the machine is suspended
	due, err := h.Timetable.Claim(ctx, now, h.Place, lease, batch)
	if err != nil {
		return 0, err
	}
	var work errgroup.Group
	work.SetLimit(hands)
	for _, theirs := range byPerson(due) {
		work.Go(func() error {
			for _, d := range theirs {
				h.handOver(ctx, d, now.Add(lease))
			}
			return nil
		})
	}
	return len(due), work.Wait()
}

// byPerson parts what is due by whom it is for, in the order that it comes:
// what is for one person is handed over one after the other, so that they read
// first what was written first. Each post in a channel stands alone.
func byPerson(due []calendar.Due) (parts [][]calendar.Due) {
	at := map[[2]string]int{}
	for _, d := range due {
		whose := [2]string{d.Club, d.Person}
		i, known := at[whose]
		if !known || d.Person == "" {
			i = len(parts)
			at[whose], parts = i, append(parts, nil)
		}
		parts[i] = append(parts[i], d)
	}
	return parts
}

// handOver runs one errand. A panic ends with it: the claim runs out, and the
// attempts are counted.
func (h *Heartbeat) handOver(ctx context.Context, d calendar.Due, leased time.Time) {
	log := h.Log.With("due", d.ID, "club", d.Club, "kind", d.Kind, "attempt", d.Attempts)
	defer func() {
		if p := recover(); p != nil {
			log.Error("an errand panicked", "panic", p, "stack", string(debug.Stack()))
		}
	}()
	e := &errand{Heartbeat: h, due: d, leased: leased, log: log}
	if err := e.run(ctx); err != nil && ctx.Err() == nil {
		log.Error("an errand failed", "err", err)
	}
}
