// Package discord is the way in from the club's messaging workspace. It turns
// what people type, press, fill in and send there into asks, and replies into
// messages; it knows nothing of the trade and keeps nothing but what is in
// flight, so any number of equal processes may run it and an old button works
// after a restart.
//
// The rooms below it know the platform's machinery and nothing of the bot:
// gateway joins and stays, rest makes requests within the platform's limits.
package discord

import (
	"context"
	"log/slog"
	"net/http"
	"sync/atomic"
	"time"

	"github.com/bwmarrin/discordgo"

	"detent/bot"
	"detent/bot/discord/gateway"
	"detent/bot/discord/rest"
)

// Answerer is the bot behind the door.
type Answerer interface {
	Answer(ctx context.Context, ask bot.Ask) bot.Reply
	Suggest(ctx context.Context, ask bot.Ask, option, typed string) []bot.Suggestion
	// Form tells whether a pressed button opens a form.
	Form(ctx context.Context, ask bot.Ask) (bot.Form, bool)
}

// Clubs is told when a workspace removes the bot or takes it back. Left and Back may
// come any number of times, for clubs long gone too.
type Clubs interface {
	Left(ctx context.Context, key string, at time.Time) error
	Back(ctx context.Context, key string) error

	// Shares tells whether a person's answers about their own cars are for all.
	Shares(ctx context.Context, key, person string) (bool, error)

	// Known lists the keys of a place's clubs that are on record.
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
	api     *rest.Client
	files   *fetcher
	work    *pool
	seen    *sightings
	guilds  *memory[guild]
	members *memory[member]
	me      atomic.Pointer[string] // see self
	gateway *gateway.Gateway
	pace    pace
	log     *slog.Logger
	metrics *Metrics
}

// pace is how long things may take.
type pace struct {
	deferral time.Duration // an answer not ready by then is announced and follows
	privacy  time.Duration // finding out whether a person shares their answers
	standing time.Duration // finding out what a person is in a club
	question time.Duration // one attempt at that
	suggest  time.Duration // suggestions not ready by then are none
	answer   time.Duration // a command that takes longer is told so
	first    time.Duration // the platform takes a first answer until then
	attempt  time.Duration // one attempt at a first answer by a request of its own
	arriving time.Duration // an announcement that was not confirmed may be on its way
	retry    time.Duration // between two attempts to take its place, at first
	register time.Duration // between two attempts to register the commands, at first
}

// usualPace leaves room on both sides of the platform's own limits: 3 s for a
// first answer, 15 minutes for what follows it.
var usualPace = pace{
	deferral: 1500 * time.Millisecond, privacy: 500 * time.Millisecond, standing: 5 * time.Second, question: 2 * time.Second, suggest: 2 * time.Second, answer: time.Minute, first: 3 * time.Second,
	attempt: time.Second, arriving: 30 * time.Second, retry: 100 * time.Millisecond, register: time.Second,
}

// mostInFlight is how many interactions are answered at once; whoever asks beyond
// that is told to try again.
const mostInFlight = 1000

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
		config: config, bot: answerer, clubs: clubs, pace: usualPace, log: config.Log, metrics: config.Metrics,
		files: newFetcher(config.Transport),
		work:  newPool(mostInFlight), seen: newSightings(),
		guilds: newMemory[guild](time.Minute, 1000), members: newMemory[member](time.Minute, 10000),
	}
	b.api = rest.NewClient(config.Token, config.Transport)
	b.api.Retried = config.Metrics.retried
	b.gateway = gateway.New(gateway.Config{
		Token: config.Token, Shard: config.Shard, Shards: config.Shards, API: b.api, Log: config.Log, Now: config.Now,
		Pace: gateway.UsualPace, Entered: config.Metrics.joins.Inc, Broken: config.Metrics.broken,
	})
	return b
}

// Fatal is a refusal that no attempt can mend: what is wrong is in the
// configuration.
type Fatal = gateway.Fatal

// Run joins the workspaces and stays, until ctx ends. It returns a *Fatal for
// what joining again cannot mend.
func (b *Bot) Run(ctx context.Context) error {
	clerk := newClerk(b)
	defer clerk.stop()
	return b.gateway.Run(ctx, arrivals{b, clerk})
}

// arrivals is what comes over the gateway.
type arrivals struct {
	b     *Bot
	clerk *clerk
}

// Interaction takes what somebody asks, and answers it by a callback.
func (a arrivals) Interaction(i *discordgo.Interaction) {
	a.b.take(i, func(ctx context.Context, r response) error { return a.b.callback(ctx, i.ID, i.Token, r) })
}

// Membership notes where the bot is.
func (a arrivals) Membership(guild string, in bool) { a.clerk.note(guild, in) }

// Stop takes nothing new in and waits until what is in flight is answered, or
// until ctx ends.
func (b *Bot) Stop(ctx context.Context) error { return b.work.close(ctx) }

// Place begins the key of every club that meets in a workspace, before a colon.
const Place = "discord"

// clubKey is how a workspace is known everywhere else.
func clubKey(guild string) string { return Place + ":" + guild }
