package discord

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"net/http"
	"sync/atomic"
	"time"

	"github.com/bwmarrin/discordgo"
	"github.com/gorilla/websocket"
)

// Fatal is a refusal that no attempt can mend: what is wrong is in the
// configuration, and Say tells what. Code is the gateway's, or the status of an
// answer.
type Fatal struct {
	Code int
	Say  string
}

func (f *Fatal) Error() string { return fmt.Sprintf("%s (code %d)", f.Say, f.Code) }

// fatal are the codes that the gateway closes with for good. The library would
// go on for ever.
var fatal = map[int]string{
	4004: unknownToken,
	4010: "The platform knows no such shard: check DETENT_DISCORD_SHARD",
	4011: "There are too many workspaces for one connection: raise DETENT_DISCORD_SHARDS",
	4012: "The platform no longer speaks this version of the gateway: update the program",
	4013: "The platform does not know what was asked to be sent: update the program",
	4014: "The bot may not be sent what it asked for: update the program",
}

const unknownToken = "The platform does not know this token: set DETENT_DISCORD_TOKEN to the bot's own"

// link is the state of the connection, for whoever asks how the bot is.
type link struct {
	joined atomic.Bool
	stuck  atomic.Bool               // an attempt to join ran out of time, and none succeeded since
	held   atomic.Pointer[time.Time] // the platform allows no start before this
}

// errStuck is an attempt to join, or a connection, that hangs.
var errStuck = errors.New("the gateway hangs")

// Run joins the workspaces and stays, joining again whenever the connection is
// lost, until ctx ends. It returns a *Fatal for what joining again cannot mend.
func (b *Bot) Run(ctx context.Context) error {
	clerk := newClerk(b)
	defer clerk.stop()
	wait := b.pace.rejoin
	var s *session // nil where one has to be begun
	for ctx.Err() == nil {
		joined, err := b.visit(ctx, &s, clerk)
		if f := forGood(err); f != nil {
			return f
		}
		if ctx.Err() != nil {
			break
		}
		b.log.Warn("not at the gateway", "err", err)
		if s != nil && (errors.Is(err, errStuck) || !s.resumable()) {
			s.abandon()
			s = nil
		}
		if joined {
			wait = b.pace.rejoin
		}
		rest(ctx, rand.N(wait))
		wait = min(2*wait, time.Minute)
	}
	if s != nil {
		s.leave(b.pace.goodbye)
	}
	return nil
}

// visit begins a session where there is none, joins, and stays until the
// connection is lost, for which it always has a reason.
func (b *Bot) visit(ctx context.Context, s **session, clerk *clerk) (joined bool, err error) {
	if *s == nil {
		if err := b.awaitStart(ctx); err != nil {
			return false, err
		}
		*s = b.newSession(clerk)
	}
	if err := b.join(ctx, *s); err != nil {
		return false, err
	}
	defer b.link.joined.Store(false)
	return true, b.stay(ctx, *s)
}

// forGood tells whether an attempt to join was refused for good.
func forGood(err error) error {
	if closed, ok := errors.AsType[*websocket.CloseError](err); ok && fatal[closed.Code] != "" {
		return &Fatal{closed.Code, fatal[closed.Code]}
	}
	lib, ok := errors.AsType[*discordgo.RESTError](err)
	unknown := ok && lib.Response.StatusCode == http.StatusUnauthorized
	if r, ok := asRefusal(err); unknown || ok && r.Status == http.StatusUnauthorized {
		return &Fatal{http.StatusUnauthorized, unknownToken}
	}
	return nil
}

// join opens the connection, taking the session up again where it can be. The
// library may never return from that, so it is left behind when time is up.
func (b *Bot) join(ctx context.Context, s *session) error {
	select {
	case <-s.gone: // drops a stale signal of the connection before
	default:
	}
	opened := make(chan error, 1)
	go func() { opened <- s.Open() }()
	late := time.NewTimer(b.pace.open)
	defer late.Stop()
	select {
	case err := <-opened:
		if err != nil {
			return errors.Join(err, s.lost())
		}
		s.joined()
		b.link.stuck.Store(false)
		b.metrics.joins.Inc()
		b.log.Info("joined the gateway", "shard", b.config.Shard, "shards", b.config.Shards)
		return nil
	case <-late.C:
		b.link.stuck.Store(true)
		return errStuck
	case <-ctx.Done():
		return errStuck
	}
}

// stay waits until the connection is lost or hangs.
func (b *Bot) stay(ctx context.Context, s *session) error {
	look := time.NewTicker(b.pace.beat)
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
				b.link.stuck.Store(true)
				return errStuck
			}
		}
	}
}
