package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"path/filepath"
	"sync"
	"time"

	"detent/bot"
	"detent/bot/console"
	"detent/bot/discord"
	"detent/bot/remind"
	"detent/bot/season"
	"detent/store"
	"detent/tuning"
)

// beat is how often the timetable is looked at.
const beat = 10 * time.Second

// heartbeat joins the timetable to a way of sending.
func heartbeat(db *store.DB, messenger remind.Messenger, now func() time.Time, log *slog.Logger) *remind.Heartbeat {
	return &remind.Heartbeat{
		Timetable: db, Messenger: messenger, Digests: digests{db, now}, Guides: guides{db, now},
		Pace: remind.NewPace(), Now: now, Log: log,
	}
}

// sender sends into the club's messaging workspace.
type sender struct{ door *discord.Bot }

func (s sender) Direct(ctx context.Context, club, person string, message bot.Reply, nonce string) error {
	return s.meaning(s.door.Direct(ctx, club, person, message, nonce))
}

func (s sender) Post(ctx context.Context, channel string, message bot.Reply, nonce string, meant ...string) error {
	return s.meaning(s.door.Post(ctx, channel, message, nonce, meant...))
}

func (sender) meaning(err error) error {
	switch {
	case errors.Is(err, discord.ErrNoDirect):
		return remind.ErrClosed
	case errors.Is(err, discord.ErrNoAccess):
		return remind.ErrRefused
	}
	return err
}

// guides are the events' guides as the record has them.
type guides struct {
	db  *store.DB
	now func() time.Time
}

func (g guides) Guide(ctx context.Context, club string, event int64) (guide bot.Reply, hash string, err error) {
	err = records{g.db}.Read(ctx, tuning.Who{Club: club}, g.now(), func(b bot.Book) (err error) {
		guide, hash, err = season.Guide(ctx, b, event, g.now())
		return err
	})
	return guide, hash, err
}

func (g guides) Posted(ctx context.Context, club string, event int64, hash string) error {
	return g.db.GuidePosted(ctx, g.now(), club, event, hash)
}

// remindCmd prints what is due in the clubs that meet in a terminal.
type remindCmd struct {
	At   *time.Time `placeholder:"TIME" help:"The time to take for now, as RFC 3339, for rehearsal."`
	Once bool       `help:"Print what is due now and leave."`
	JSON bool       `name:"json" help:"Print each message as one line of JSON."`
}

// Run sends to the terminal until the context ends. What it prints is sent,
// and is not due again.
func (r *remindCmd) Run(ctx context.Context, config *Config, s *streams) (err error) {
	dir, err := config.dataFolder()
	if err != nil {
		return err
	}
	db, close, err := config.open(ctx)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, close()) }()
	now := time.Now
	if r.At != nil {
		now = func() time.Time { return *r.At }
	}
	log := slog.New(slog.NewTextHandler(s.errs, nil))
	out := &screen{desk: console.Desk{Now: now, JSON: r.JSON, Out: s.out, Files: filepath.Join(dir, "files")}}
	heart := heartbeat(db, out, now, log)
	heart.Pace.SetLimit(unhurried)
	if !r.Once {
		heart.Run(ctx, time.Second)
		return nil
	}
	return heart.Drain(ctx)
}

// unhurried is the pace of a terminal, which has no limit to keep.
const unhurried = 1e6

// screen is a messenger that prints.
type screen struct {
	mu   sync.Mutex
	desk console.Desk
}

// delivery is a message as it is printed.
type delivery struct {
	At      time.Time `json:"at"`
	Club    string    `json:"club,omitempty"`
	To      string    `json:"to,omitempty"`
	Channel string    `json:"channel,omitempty"`
	bot.Reply
}

func (s *screen) Direct(_ context.Context, club, person string, message bot.Reply, _ string) error {
	return s.print(delivery{Club: club, To: person, Reply: message})
}

func (s *screen) Post(_ context.Context, channel string, message bot.Reply, _ string, _ ...string) error {
	return s.print(delivery{Channel: channel, Reply: message})
}

func (s *screen) print(d delivery) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	d.At, d.Reply = s.desk.Now(), s.desk.Keep(d.Reply, tuning.Who{Club: d.Club, Person: d.To})
	if s.desk.JSON {
		return json.NewEncoder(s.desk.Out).Encode(d)
	}
	where := "in the channel " + d.Channel
	if d.To != "" {
		where = fmt.Sprintf("to %s of %s", d.To, d.Club)
	}
	_, err := fmt.Fprintf(s.desk.Out, "── %s, %s\n\n%s", d.At.Format(time.RFC3339), where, console.Text(d.Reply))
	return err
}
