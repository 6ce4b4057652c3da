package discord

import (
	"context"
	"net"
	"net/http"
	"sync"
	"sync/atomic"
	"time"

	"github.com/bwmarrin/discordgo"
	"github.com/gorilla/websocket"
)

// session is the library's, with a wire of our own between it and the platform,
// so that it can be cut where the library would wait for ever.
type session struct {
	*discordgo.Session
	b      *Bot
	gone   chan struct{} // told when the library has noticed the loss of its connection
	ctx    context.Context
	cancel context.CancelFunc

	known   atomic.Bool // the platform began it: READY came
	over    atomic.Bool // the platform does not take it up again
	leaving atomic.Bool // the goodbye is meant: it ends the session

	mu   sync.Mutex
	live bool  // a wire is up
	why  error // why the last one ended
}

func (b *Bot) newSession(clerk *clerk) *session {
	lib, err := discordgo.New("Bot " + b.config.Token)
	if err != nil {
		panic(err) // it returns no error in this version
	}
	s := &session{Session: lib, b: b, gone: make(chan struct{}, 1)}
	s.ctx, s.cancel = context.WithCancel(context.Background())
	lib.Client = &http.Client{Transport: b.api.http.Transport, Timeout: 20 * time.Second}
	lib.Dialer = &websocket.Dialer{
		NetDialContext: s.dial("ws"), NetDialTLSContext: s.dial("wss"), HandshakeTimeout: 20 * time.Second,
	}
	lib.LogLevel = -1 // it would log what people say
	lib.StateEnabled = false
	lib.SyncEvents = true // handlers only hand over
	lib.ShouldReconnectOnError = false
	lib.Identify.Intents = discordgo.IntentsGuilds
	lib.ShardID, lib.ShardCount = b.config.Shard, b.config.Shards
	lib.AddHandler(guarded(b, "DISCONNECT", func(*discordgo.Disconnect) {
		select {
		case s.gone <- struct{}{}:
		default:
		}
	}))
	lib.AddHandler(guarded(b, interactionEvent, func(e *discordgo.InteractionCreate) {
		b.take(e.Interaction, func(ctx context.Context, r response) error {
			return b.api.callback(ctx, e.Interaction.ID, e.Interaction.Token, r)
		})
	}))
	lib.AddHandler(guarded(b, guildEvent, func(e *discordgo.GuildCreate) { clerk.note(e.Guild.ID, true) }))
	lib.AddHandler(guarded(b, removalEvent, func(e *discordgo.GuildDelete) {
		if !e.Guild.Unavailable { // otherwise it is an outage
			clerk.note(e.Guild.ID, false)
		}
	}))
	return s
}

// dial gives the library one end of a pipe for its connection. At the other end
// is a wire, which dials the platform by the scheme that the library meant.
func (s *session) dial(scheme string) func(context.Context, string, string) (net.Conn, error) {
	return func(context.Context, string, string) (net.Conn, error) {
		near, far := net.Pipe()
		go s.serve(scheme, far)
		return near, nil
	}
}

// begun notes that a wire is up.
func (s *session) begun() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.live, s.why = true, nil
}

// ended notes why a wire ended. The bot is not at the gateway from then on,
// even before the library has noticed.
func (s *session) ended(why error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.live = false
	if s.why == nil {
		s.why = why
	}
	s.b.link.joined.Store(false)
}

// joined marks the bot as being at the gateway, unless the wire has ended
// meanwhile.
func (s *session) joined() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.b.link.joined.Store(s.live)
}

// lost is why the last wire ended, nil while it is up.
func (s *session) lost() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.why
}

// resumable tells whether the platform may take the session up again.
func (s *session) resumable() bool { return s.known.Load() && !s.over.Load() }

// abandon cuts the connection and gives the session up.
func (s *session) abandon() { s.cancel() }

// leave says goodbye, if the library can, and is gone soon in any case.
func (s *session) leave(within time.Duration) {
	s.leaving.Store(true)
	said := make(chan struct{})
	go func() {
		s.Close()
		close(said)
	}()
	select {
	case <-said:
	case <-time.After(within):
	}
	s.abandon()
}
