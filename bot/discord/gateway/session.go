package gateway

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
	g      *Gateway
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

func (g *Gateway) newSession(h Handler) *session {
	lib, err := discordgo.New("Bot " + g.Token)
	if err != nil {
		panic(err) // it returns no error in this version
	}
	s := &session{Session: lib, g: g, gone: make(chan struct{}, 1)}
	s.ctx, s.cancel = context.WithCancel(context.Background())
	lib.Client = &http.Client{Transport: g.API.Transport(), Timeout: 20 * time.Second}
	lib.Dialer = &websocket.Dialer{
		NetDialContext: s.dial("ws"), NetDialTLSContext: s.dial("wss"), HandshakeTimeout: 20 * time.Second,
	}
	lib.LogLevel = -1 // it would log what people say
	lib.StateEnabled = false
	lib.SyncEvents = true // handlers only hand over
	lib.ShouldReconnectOnError = false
	lib.Identify.Intents = discordgo.IntentsGuilds
	lib.ShardID, lib.ShardCount = g.Shard, g.Shards
	lib.AddHandler(guarded(g, "DISCONNECT", func(*discordgo.Disconnect) {
		select {
		case s.gone <- struct{}{}:
		default:
		}
	}))
	lib.AddHandler(guarded(g, interactionEvent, func(e *discordgo.InteractionCreate) { h.Interaction(e.Interaction) }))
	lib.AddHandler(guarded(g, guildEvent, func(e *discordgo.GuildCreate) { h.Membership(e.Guild.ID, true) }))
	lib.AddHandler(guarded(g, removalEvent, func(e *discordgo.GuildDelete) {
		if !e.Guild.Unavailable { // otherwise it is an outage
			h.Membership(e.Guild.ID, false)
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
	s.g.joined.Store(false)
}

// joined marks the bot as being at the gateway, unless the wire has ended
// meanwhile.
func (s *session) joined() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.g.joined.Store(s.live)
}

// lost returns why the last wire ended, nil while it is up.
func (s *session) lost() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.why
}

// resumable tells whether the platform may take the session up again.
func (s *session) resumable() bool { return s.known.Load() && !s.over.Load() }

// abandon cuts the connection and gives the session up.
func (s *session) abandon() { s.cancel() }

// leave says goodbye, if the library can, and returns soon in any case.
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
