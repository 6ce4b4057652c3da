package gateway

import (
	"log/slog"
	"time"

	"detent/bot/discord/rest"
)

// Config is how the gateway is joined. All of it must be set.
type Config struct {
	Token  string       // the bot's secret
	Shard  int          // which part of the workspaces this process serves,
	Shards int          // of how many
	API    *rest.Client // the way to the platform's HTTP API, for the library too
	Log    *slog.Logger
	Now    func() time.Time
	Pace   Pace

	Entered func()             // told whenever the gateway was joined
	Broken  func(event string) // told of an event that could not be handled
}

// Pace is how long things may take.
type Pace struct {
	Open     time.Duration // joining the gateway
	Beat     time.Duration // between two looks at the connection's health
	Identify time.Duration // between the turns of two shards of one bucket
	Rejoin   time.Duration // between two attempts to join, at first
	Goodbye  time.Duration // leaving the gateway
}

// UsualPace leaves room on both sides of the platform's own limits, one of
// which is that shards of one bucket identify five seconds apart.
var UsualPace = Pace{
	Open: 30 * time.Second, Beat: 10 * time.Second, Identify: 5500 * time.Millisecond, Rejoin: time.Second, Goodbye: 3 * time.Second,
}
