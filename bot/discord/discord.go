// Package discord is the way in from the club's messaging workspace. It turns
// what people type, press, fill in and send there into asks, and replies into
// messages; it knows nothing of the trade and keeps nothing but what is in
// flight, so any number of equal processes may run it and an old button works
// after a restart.
//
// The gateway is the client library's. Everything that is sent goes through a
// small client of our own, because the library keeps a rate-limit bucket for
// every interaction for ever, waits for buckets whatever the context says and
// retries by the body of an answer where the status tells.
package discord

import (
	"context"
	"log/slog"
	"net/http"
	"sync/atomic"
	"time"

	"detent/bot"
	"detent/tuning"
)

// Answerer is the bot behind the door.
type Answerer interface {
	Answer(ctx context.Context, ask bot.Ask) bot.Reply
	Suggest(ctx context.Context, ask bot.Ask, option, typed string) []bot.Suggestion
}

// Clubs is what must be known of clubs before anything is asked, and who is
// told when a workspace removes the bot or takes it back. Left and Back may
// come any number of times, for clubs long gone too.
type Clubs interface {
	Club(ctx context.Context, key string) (tuning.Club, error)
	Left(ctx context.Context, key string, at time.Time) error
	Back(ctx context.Context, key string) error

	// Known lists the keys of the clubs of a place that there is anything of.
	Known(ctx context.Context, place string) ([]string, error)
}

// Config is how the bot joins.
type Config struct {
	Token     string            // the bot's secret
	TestClub  string            // the workspace that alone sees the commands, "" for all
	Shard     int               // which part of the workspaces this process serves,
	Shards    int               // of how many; 0 is 1
	Transport http.RoundTripper // the way to the platform, nil for the ordinary one
	Log       *slog.Logger
	Metrics   *Metrics
	Now       func() time.Time // nil is time.Now
	Lines     *bot.Catalogue   // what can be asked
}

// Bot is the adapter: the platform on one side, the bot on the other.
type Bot struct {
	config  Config
	bot     Answerer
	clubs   Clubs
	api     *client
	files   *fetcher
	work    *pool
	seen    *sightings
	guilds  *memory[guild]
	members *memory[member]
	me      atomic.Pointer[string] // see self
	link    link
	pace    pace
	log     *slog.Logger
	metrics *Metrics

	identified time.Time // when a session was last begun; Run's own
}

// pace is how long things may take.
type pace struct {
	deferral time.Duration // an answer not ready by then is announced and follows
	standing time.Duration // finding out what a person is in a club
	question time.Duration // one attempt at that
	suggest  time.Duration // suggestions not ready by then are none
	answer   time.Duration // a command that takes longer is told so
	first    time.Duration // the platform takes a first answer until then
	open     time.Duration // joining the gateway
	beat     time.Duration // between two looks at the gateway's health
	identify time.Duration // between the turns of two shards of one bucket
	rejoin   time.Duration // between two attempts to join, at first
	goodbye  time.Duration // leaving the gateway
}

// usual leaves room on both sides of the platform's own limits: 3 s for a
// first answer, 15 minutes for what follows it.
var usual = pace{
	deferral: 1500 * time.Millisecond, standing: 5 * time.Second, question: 2 * time.Second, suggest: 2 * time.Second, answer: time.Minute, first: 3 * time.Second,
	open: 30 * time.Second, beat: 10 * time.Second, identify: 5500 * time.Millisecond, rejoin: time.Second, goodbye: 3 * time.Second,
}

// inFlight is the most that is answered at once. What comes beyond it is told
// that it is too much.
const inFlight = 1000

// New returns the adapter; it joins nothing yet.
func New(config Config, answerer Answerer, clubs Clubs) *Bot {
	if config.Transport == nil {
		config.Transport = http.DefaultTransport
	}
	if config.Now == nil {
		config.Now = time.Now
	}
	config.Shards = max(1, config.Shards)
	b := &Bot{
		config: config, bot: answerer, clubs: clubs, pace: usual, log: config.Log, metrics: config.Metrics,
		files: newFetcher(config.Transport),
		work:  newPool(inFlight), seen: newSightings(),
		guilds: newMemory[guild](time.Minute, 1000), members: newMemory[member](time.Minute, 10000),
	}
	b.api = newClient(config.Token, config.Transport, config.Metrics)
	return b
}

// Stop takes nothing new in and waits until what is in flight is answered, or
// until ctx ends.
func (b *Bot) Stop(ctx context.Context) error { return b.work.close(ctx) }

// Place begins the key of every club that meets in a workspace, before a colon.
const Place = "discord"

// clubKey is how a workspace is known everywhere else.
func clubKey(guild string) string { return Place + ":" + guild }
