package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"time"

	"golang.org/x/sync/errgroup"

	"detent/bot"
	"detent/bot/discord"
	"detent/bot/remind"
	"detent/store"
)

// serveCmd joins the club's messaging workspace.
type serveCmd struct {
	platform  `embed:""`
	PublicKey string `name:"public-key" env:"DETENT_DISCORD_PUBLIC_KEY" placeholder:"KEY" help:"The application's public key, for interactions over HTTP."`
	TestClub  string `name:"test-club" env:"DETENT_DISCORD_TEST_CLUB" placeholder:"ID" help:"The one workspace that sees the commands, for trying out. Without it all do."`
	Shard     int    `name:"shard" env:"DETENT_DISCORD_SHARD" default:"0" help:"Which part of the workspaces this process serves, from 0."`
	Shards    int    `name:"shards" env:"DETENT_DISCORD_SHARDS" default:"1" help:"How many parts the workspaces are served in."`
	Listen    string `name:"listen" env:"DETENT_LISTEN" default:"127.0.0.1:8650" help:"Where health and metrics are served."`
	HTTP      string `name:"http" placeholder:"ADDR" help:"Take signed interactions at this address, in place of the gateway."`
}

// graceful is how long a stop waits for answers in flight.
const graceful = 10 * time.Second

// Run serves until the context ends, which is how the program is stopped.
func (s *serveCmd) Run(ctx context.Context, config *Config, out *streams) (err error) {
	transport, err := s.check()
	if err != nil {
		return err
	}
	db, close, err := config.open(ctx, toServe)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, close()) }()
	log := slog.New(slog.NewJSONHandler(out.errs, nil))
	if db.Unconfined() {
		log.Warn("the database lets its user do more than serving needs: the README has a user that can do no more, under Running it for a club")
	}
	router := bot.NewRouter(lines, records{db}, log)
	metrics := discord.NewMetrics()
	metrics.Due(func(ctx context.Context) (int, error) { return db.Waiting(ctx, time.Now(), discord.Place) })
	door := discord.New(discord.Config{
		Token: s.Token, TestClub: s.TestClub, Shard: s.Shard, Shards: s.Shards,
		Transport: transport, Log: log, Metrics: metrics, Lines: lines,
	}, router, db)
	heart := heartbeat(db, sender{door}, time.Now, log)
	heart.Place = discord.Place
	return service{door: door, heart: heart, db: db, log: log}.run(ctx, s)
}

// check refuses what cannot work, before anything is started, and returns the
// way to the platform: nil for the ordinary one.
func (s *serveCmd) check() (http.RoundTripper, error) {
	switch {
	case s.Token == "":
		return nil, errNoToken
	case s.HTTP != "" && s.PublicKey == "":
		return nil, usageError{errors.New("nothing can be checked without a key: set DETENT_DISCORD_PUBLIC_KEY to the application's public key")}
	case s.Shards < 1 || s.Shard < 0 || s.Shard >= s.Shards:
		return nil, usageError{fmt.Errorf("there is no part %d of %d: DETENT_DISCORD_SHARD goes from 0 to one less than DETENT_DISCORD_SHARDS", s.Shard, s.Shards)}
	}
	return s.way()
}

// service is what runs while the program serves.
type service struct {
	door  *discord.Bot
	heart *remind.Heartbeat
	db    *store.DB
	log   *slog.Logger
}

// run serves health and metrics, the way in and the daily chores. When one of
// them fails, or ctx ends, all are stopped: nothing new is taken in and what
// is in flight is answered.
func (s service) run(ctx context.Context, c *serveCmd) error {
	var posted http.Handler
	if c.HTTP != "" {
		var err error
		if posted, err = s.door.Posted(c.PublicKey); err != nil {
			return usageError{err}
		}
	}
	all, ctx := errgroup.WithContext(ctx)
	all.Go(func() error { return serveUntilDone(ctx, c.Listen, s.door.Health(posted == nil, s.ready)) })
	if posted != nil {
		all.Go(func() error { return serveUntilDone(ctx, c.HTTP, posted) })
	}
	all.Go(func() error {
		if err := s.door.Register(ctx); ctx.Err() == nil {
			return err
		}
		return nil
	})
	all.Go(func() error { return s.door.Run(ctx) })
	all.Go(func() error { s.heart.Run(ctx, beat); return nil })
	all.Go(func() error { s.daily(ctx); return nil })
	all.Go(func() error {
		<-ctx.Done()
		s.log.Info("stopping")
		last, cancel := context.WithTimeout(context.WithoutCancel(ctx), graceful)
		defer cancel()
		return s.door.Stop(last)
	})
	return all.Wait()
}

// ready returns an error when the record cannot be used.
func (s service) ready(ctx context.Context) error { return s.db.Ready(ctx, time.Now()) }

// daily looks for clubs that have left, now and then once a day. It forgets those
// that left for good, but only after it has looked for them, and it forgets old
// replies.
func (s service) daily(ctx context.Context) {
	day := time.NewTicker(24 * time.Hour)
	defer day.Stop()
	for {
		clubs, err := 0, s.door.RollCall(ctx)
		if err == nil {
			clubs, err = s.db.ForgetGone(ctx, time.Now())
		}
		s.logForgotten(ctx, "clubs that left", clubs, err)
		replies, err := s.db.ForgetReplies(ctx, time.Now())
		s.logForgotten(ctx, "old replies", replies, err)
		select {
		case <-day.C:
		case <-ctx.Done():
			return
		}
	}
}

// logForgotten logs what came of forgetting.
func (s service) logForgotten(ctx context.Context, what string, n int, err error) {
	switch {
	case err != nil && ctx.Err() == nil:
		s.log.Error("forgetting "+what, "err", err)
	case n > 0:
		s.log.Info("forgot "+what, "many", n)
	}
}

// serveUntilDone serves a handler until ctx ends, and then finishes the requests
// in flight.
func serveUntilDone(ctx context.Context, address string, handler http.Handler) error {
	server := &http.Server{
		Addr: address, Handler: handler, ErrorLog: slog.NewLogLogger(slog.NewJSONHandler(io.Discard, nil), slog.LevelError),
		ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 10 * time.Second, WriteTimeout: 30 * time.Second, IdleTimeout: 2 * time.Minute,
	}
	ended := make(chan error, 1)
	go func() { ended <- server.ListenAndServe() }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), graceful)
	defer cancel()
	return server.Shutdown(last)
}
