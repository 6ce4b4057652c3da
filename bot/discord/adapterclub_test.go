package discord

import (
	"context"
	"encoding/hex"
	"io"
	"log/slog"
	"net/http/httptest"
	"sync"
	"testing"
	"time"

	"detent/bot"
	"detent/bot/clubroom"
	"detent/bot/coaching"
	"detent/bot/discord/discordtest"
	"detent/bot/garage"
	"detent/bot/season"
)

// adapterClub is a stand-in platform with one member in one club, and the adapter
// before a bot that answers as the test says.
type adapterClub struct {
	*discordtest.Platform
	t     *testing.T
	bot   *Bot
	club  *discordtest.Guild
	alice *discordtest.Member
	*script
	*roster
	stop context.CancelFunc
	ran  chan error
}

// script is the bot behind the door.
type script struct {
	mu      sync.Mutex
	asked   []bot.Ask
	answer  func(context.Context, bot.Ask) bot.Reply
	suggest func(ask bot.Ask, option, typed string) []bot.Suggestion
}

func (s *script) Answer(ctx context.Context, ask bot.Ask) bot.Reply {
	s.mu.Lock()
	s.asked = append(s.asked, ask)
	s.mu.Unlock()
	if s.answer == nil {
		return bot.Reply{Title: "You said " + ask.Line.String()}
	}
	return s.answer(ctx, ask)
}

func (s *script) Suggest(_ context.Context, ask bot.Ask, option, typed string) []bot.Suggestion {
	if s.suggest == nil {
		return nil
	}
	return s.suggest(ask, option, typed)
}

func (s *script) Form(_ context.Context, ask bot.Ask) (bot.Form, bool) {
	return lines.FormFor(ask.Line)
}

func (s *script) asks() []bot.Ask {
	s.mu.Lock()
	defer s.mu.Unlock()
	return append([]bot.Ask{}, s.asked...)
}

// roster is what the adapter knows and notes of clubs.
type roster struct {
	mu    sync.Mutex
	known []string
	share bool // everybody shares their answers
	told  chan string
}

func (r *roster) Shares(ctx context.Context, _, _ string) (bool, error) {
	if ctx.Err() != nil {
		return false, ctx.Err()
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.share, nil
}

func (r *roster) note(what, key string) error {
	select {
	case r.told <- what + " " + key:
	default:
	}
	return nil
}

func (r *roster) Left(_ context.Context, key string, _ time.Time) error { return r.note("left", key) }
func (r *roster) Known(context.Context, string) ([]string, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.known, nil
}
func (r *roster) Back(_ context.Context, key string) error { return r.note("back", key) }

// lines are all that can be asked.
var lines = bot.NewCatalogue(garage.Commands(), season.Commands(), coaching.Commands(), clubroom.Commands())

// busy is how long anything may take in a test that is not about time: the
// machine may have much else to do. What a test waits for in order that it
// happens is set by the test itself.
const busy = time.Minute

// invited takes the bot into every workspace with what an invitation asks for,
// and nothing more.
func invited(i Invitation) discordtest.Setting { return discordtest.WithInvitation(i.Permissions()) }

// newAdapterClub makes a club that is not joined yet.
func newAdapterClub(t *testing.T, settings ...discordtest.Setting) *adapterClub {
	settings = append([]discordtest.Setting{discordtest.WithPatience(2 * busy), discordtest.WithFirstAnswer(busy), invited(Invitation{})}, settings...)
	w := &adapterClub{t: t, Platform: discordtest.New(t, settings...), script: &script{}, roster: &roster{told: make(chan string, 100)}}
	w.club = w.Guild("Windy Hill")
	w.alice = w.club.Member("alice")
	w.bot = w.adapter()
	return w
}

// adapter makes another process of the same bot.
func (w *adapterClub) adapter() *Bot {
	b := New(Config{
		Token: w.Token(), TestClub: w.club.ID, Transport: w.Client().Transport,
		Log: slog.New(slog.NewTextHandler(io.Discard, nil)), Metrics: NewMetrics(), Lines: lines,
	}, w.script, w.roster)
	b.pace.deferral, b.pace.privacy, b.pace.standing, b.pace.question, b.pace.suggest, b.pace.first, b.pace.attempt = busy, busy, busy, busy, busy, busy, busy
	b.pace.register, b.gateway.Pace.Rejoin = time.Millisecond, time.Millisecond
	b.gateway.Pace.Identify = time.Millisecond
	b.gateway.Pace.Goodbye = 20 * time.Millisecond // the library would take a second
	b.api.Backoff = time.Millisecond
	return b
}

func (w *adapterClub) register() *adapterClub {
	w.t.Helper()
	if err := w.bot.Register(w.t.Context()); err != nil {
		w.t.Fatal(err)
	}
	return w
}

// join runs the bot at the gateway until the test ends.
func (w *adapterClub) join() *adapterClub {
	w.t.Helper()
	w.start()
	until(w.t, "the bot to join", w.bot.gateway.Joined)
	return w
}

func (w *adapterClub) start() {
	ctx, stop := context.WithCancel(context.Background())
	w.stop, w.ran = stop, make(chan error, 1)
	go func() { w.ran <- w.bot.Run(ctx) }()
	w.t.Cleanup(func() {
		stop()
		<-w.ran
		w.ran <- nil
	})
}

// post has interactions posted to the bot, and to as many equal processes as
// are given.
func (w *adapterClub) post(processes ...*Bot) *adapterClub {
	w.t.Helper()
	var urls []string
	for _, b := range append([]*Bot{w.bot}, processes...) {
		h, err := b.Posted(hex.EncodeToString(w.PublicKey()))
		if err != nil {
			w.t.Fatal(err)
		}
		server := httptest.NewServer(h)
		w.t.Cleanup(server.Close)
		urls = append(urls, server.URL)
	}
	w.DeliverTo(urls...)
	return w
}

// bothWays runs a test over the gateway and over signed posts.
func bothWays(t *testing.T, test func(t *testing.T, w *adapterClub)) {
	t.Run("gateway", func(t *testing.T) {
		t.Parallel()
		test(t, newAdapterClub(t).register().join())
	})
	t.Run("posted", func(t *testing.T) {
		t.Parallel()
		test(t, newAdapterClub(t).register().post())
	})
}

// until waits for something that is not on the platform.
func until(t *testing.T, what string, holds func() bool) {
	t.Helper()
	for end := time.Now().Add(2 * busy); !holds(); {
		if time.Now().After(end) {
			t.Fatalf("waited in vain for %s", what)
		}
		time.Sleep(time.Millisecond)
	}
}
