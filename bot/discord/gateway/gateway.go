package gateway

import (
	"cmp"
	"context"
	"errors"
	"math/rand/v2"
	"sync/atomic"
	"time"

	"github.com/bwmarrin/discordgo"

	"detent/bot/discord/rest"
)

// Handler is told what happens at the gateway, one event after the other: it
// hands over and returns at once. What panics in it is counted and logged.
type Handler interface {
	Interaction(i *discordgo.Interaction)

	// Membership tells that the bot is in a workspace, at every start too, or
	// was removed from it.
	Membership(guild string, in bool)
}

// Gateway is one process's place at the gateway.
type Gateway struct {
	Config
	joined     atomic.Bool
	stuck      atomic.Bool
	held       atomic.Pointer[time.Time] // the platform allows no start before this
	identified time.Time                 // when a session was last begun; Run's own
}

// New returns a gateway; it joins nothing yet.
func New(c Config) *Gateway { return &Gateway{Config: c} }

// Joined tells whether the bot is at the gateway.
func (g *Gateway) Joined() bool { return g.joined.Load() }

// Stuck tells whether an attempt to join or a connection hung, and no attempt
// succeeded since.
func (g *Gateway) Stuck() bool { return g.stuck.Load() }

// Held is the time before which the platform allows no start, nil where it
// allows one.
func (g *Gateway) Held() *time.Time { return g.held.Load() }

// errStuck is an attempt to join, or a connection, that hangs.
var errStuck = errors.New("the gateway hangs")

// Run joins the workspaces and stays, joining again whenever the connection is
// lost, until ctx ends. It returns a *Fatal for what joining again cannot mend.
func (g *Gateway) Run(ctx context.Context, h Handler) error {
	wait := g.Pace.Rejoin
	var s *session // nil where one has to be begun
	for ctx.Err() == nil {
		joined, err := g.visit(ctx, &s, h)
		if f := forGood(err); f != nil {
			return f
		}
		if ctx.Err() != nil {
			break
		}
		g.Log.Warn("not at the gateway", "err", err)
		if s != nil && (errors.Is(err, errStuck) || !s.resumable()) {
			s.abandon()
			s = nil
		}
		if joined {
			wait = g.Pace.Rejoin
		}
		rest.Wait(ctx, rand.N(wait))
		wait = min(2*wait, time.Minute)
	}
	if s != nil {
		s.leave(g.Pace.Goodbye)
	}
	return nil
}

// visit begins a session if there is none, joins, and stays until the connection
// is lost. It returns whether it joined, and why it is no longer there: never nil.
func (g *Gateway) visit(ctx context.Context, s **session, h Handler) (joined bool, err error) {
	if *s == nil {
		if err := g.awaitStart(ctx); err != nil {
			return false, err
		}
		*s = g.newSession(h)
	}
	if err := g.join(ctx, *s); err != nil {
		return false, err
	}
	defer g.joined.Store(false)
	return true, g.stay(ctx, *s)
}

// join opens the connection and resumes the session if that is possible. The
// library may never return from that, so join returns errStuck when time is up.
func (g *Gateway) join(ctx context.Context, s *session) error {
	select {
	case <-s.gone: // drops a stale signal from the previous connection
	default:
	}
	opened := make(chan error, 1)
	go func() { opened <- s.Open() }()
	late := time.NewTimer(g.Pace.Open)
	defer late.Stop()
	select {
	case err := <-opened:
		if err != nil {
			return errors.Join(err, s.lost())
		}
		s.joined()
		g.stuck.Store(false)
		g.Entered()
		g.Log.Info("joined the gateway", "shard", g.Shard, "shards", g.Shards)
		return nil
	case <-late.C:
		g.stuck.Store(true)
		return errStuck
	case <-ctx.Done():
		return errStuck
	}
}

// stay waits until the connection is lost or hangs.
func (g *Gateway) stay(ctx context.Context, s *session) error {
	look := time.NewTicker(g.Pace.Beat)
	defer look.Stop()
	misses := 0
	for {
		select {
		case <-s.gone:
			return cmp.Or(s.lost(), errLeft)
		case <-ctx.Done():
			return ctx.Err()
		case <-look.C:
			if s.TryRLock() {
				s.RUnlock()
				misses = 0
			} else if misses++; misses == 3 {
				g.stuck.Store(true)
				return errStuck
			}
		}
	}
}
