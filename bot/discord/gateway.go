package discord

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"net"
	"net/http"
	"sync"
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
	stuck  atomic.Bool // an attempt to join ran out of time, and none succeeded since
}

// errStuck is an attempt to join, or a connection, that hangs.
var errStuck = errors.New("the gateway hangs")

// Run joins the workspaces and stays, joining again whenever the connection is
// lost, until ctx ends. It returns a *Fatal for what joining again cannot mend.
func (b *Bot) Run(ctx context.Context) error {
	clerk := newClerk(b)
	defer clerk.stop()
	wait := b.pace.rejoin
	var s *session
	for ctx.Err() == nil {
		if s == nil {
			s = b.newSession(clerk)
		}
		err := b.join(ctx, s)
		if err == nil {
			wait = b.pace.rejoin
			err = b.stay(ctx, s)
			b.link.joined.Store(false)
		}
		if f := forGood(err); f != nil {
			return f
		}
		if ctx.Err() != nil {
			break
		}
		b.log.Warn("not at the gateway", "err", err)
		if errors.Is(err, errStuck) {
			s.abandon()
			s = nil
		}
		rest(ctx, rand.N(wait))
		wait = min(2*wait, time.Minute)
	}
	if s != nil {
		s.leave(b.pace.goodbye)
	}
	return nil
}

// forGood tells whether an attempt to join was refused for good.
func forGood(err error) error {
	if closed, ok := errors.AsType[*websocket.CloseError](err); ok && fatal[closed.Code] != "" {
		return &Fatal{closed.Code, fatal[closed.Code]}
	}
	if r, ok := errors.AsType[*discordgo.RESTError](err); ok && r.Response.StatusCode == http.StatusUnauthorized {
		return &Fatal{http.StatusUnauthorized, unknownToken}
	}
	return nil
}

// join opens the connection, taking the session up again where it can be. The
// library may never return from that, so it is left behind when time is up.
func (b *Bot) join(ctx context.Context, s *session) error {
	select {
	case <-s.gone: // told late, of the connection before
	default:
	}
	opened := make(chan error, 1)
	go func() { opened <- s.Open() }()
	late := time.NewTimer(b.pace.open)
	defer late.Stop()
	select {
	case err := <-opened:
		if err != nil && !errors.Is(err, discordgo.ErrWSAlreadyOpen) {
			return err
		}
		b.link.joined.Store(true)
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
			return errors.New("disconnected")
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

// session is the library's, with the connection under it in hand, so that it
// can be cut where the library would wait for ever.
type session struct {
	*discordgo.Session
	gone chan struct{} // told when the connection is lost

	mu   sync.Mutex
	conn net.Conn
}

func (b *Bot) newSession(clerk *clerk) *session {
	lib, err := discordgo.New("Bot " + b.config.Token)
	if err != nil {
		panic(err) // it returns no error in this version
	}
	s := &session{Session: lib, gone: make(chan struct{}, 1)}
	lib.Client = &http.Client{Transport: b.api.http.Transport, Timeout: 20 * time.Second}
	lib.Dialer = &websocket.Dialer{NetDialContext: s.dial, HandshakeTimeout: 20 * time.Second}
	lib.LogLevel = -1 // it would log what people say
	lib.StateEnabled = false
	lib.SyncEvents = true // handlers only hand over
	lib.ShouldReconnectOnError = false
	lib.Identify.Intents = discordgo.IntentsGuilds
	lib.ShardID, lib.ShardCount = b.config.Shard, b.config.Shards
	lib.AddHandler(func(_ *discordgo.Session, _ *discordgo.Disconnect) {
		select {
		case s.gone <- struct{}{}:
		default:
		}
	})
	lib.AddHandler(func(_ *discordgo.Session, e *discordgo.InteractionCreate) {
		b.take(e.Interaction, func(ctx context.Context, r response) error {
			return b.api.callback(ctx, e.Interaction.ID, e.Interaction.Token, r)
		})
	})
	lib.AddHandler(func(_ *discordgo.Session, e *discordgo.GuildCreate) { clerk.note(e.Guild.ID, true) })
	lib.AddHandler(func(_ *discordgo.Session, e *discordgo.GuildDelete) {
		if !e.Guild.Unavailable { // otherwise it is an outage
			clerk.note(e.Guild.ID, false)
		}
	})
	return s
}

func (s *session) dial(ctx context.Context, network, address string) (net.Conn, error) {
	conn, err := (&net.Dialer{}).DialContext(ctx, network, address)
	s.mu.Lock()
	defer s.mu.Unlock()
	s.conn = conn
	return conn, err
}

// abandon cuts the connection and gives the session up.
func (s *session) abandon() {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.conn != nil {
		s.conn.Close()
	}
}

// leave says goodbye, if the library can, and is gone soon in any case.
func (s *session) leave(within time.Duration) {
	said := make(chan struct{})
	go func() {
		s.Close()
		close(said)
	}()
	select {
	case <-said:
	case <-time.After(within):
		s.abandon()
	}
}
