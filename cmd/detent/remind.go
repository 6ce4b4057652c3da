package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"path/filepath"
	"slices"
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
		Timetable: db, Messenger: messenger, Digests: digests{db, now}, Guides: guides{db, now}, Memories: memories{db, now}, Notices: notices{db},
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
	none, barred := errors.AsType[*discord.NoAccess](err)
	switch {
	case barred:
		return &remind.Barred{Channel: none.Channel, Gone: none.Gone, Missing: none.Missing}
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
	At   *time.Time `placeholder:"TIME" help:"The time to take for now, as RFC 3339. What is due by then is printed and counts as sent, as if it were that time."`
	Once bool       `help:"Print what is due now, or at TIME, and leave."`
	Dry  bool       `help:"Print what would be sent now, or at TIME, change nothing and leave."`
	JSON bool       `name:"json" help:"Print each message as one line of JSON."`
}

// Run sends to the terminal until the context ends. What it has printed counts as
// sent and is not due again. When it cannot print, it ends with an error, and
// what was not printed falls due again.
func (r *remindCmd) Run(ctx context.Context, config *Config, s *streams) (err error) {
	now, err := clockAt(r.At)
	if err != nil {
		return err
	}
	dir, err := config.dataFolder()
	if err != nil {
		return err
	}
	db, close, err := config.open(ctx, atTime(r.At))
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, close()) }()
	log := slog.New(slog.NewTextHandler(s.errs, nil))
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)
	files := filepath.Join(dir, "files")
	out := &screen{desk: console.Desk{Now: now, JSON: r.JSON, Out: s.out, Files: files}, stop: stop}
	heart := heartbeat(db, out, now, log)
	if r.Dry {
		heart, out.desk.Files = dryRun(db, out, now, log), ""
	}
	heart.Pace.SetLimit(unhurried)
	if r.Once || r.Dry {
		err = heart.Drain(ctx)
	} else {
		go sweepDaily(ctx, files, log)
		heart.Run(ctx, time.Second)
	}
	if unwritten, failed := errors.AsType[*unwrittenError](context.Cause(ctx)); failed {
		return unwritten
	}
	return err
}

// unhurried is the pace of a terminal, which has no rate limit.
const unhurried = 1e6

// screen is a messenger that prints.
type screen struct {
	mu   sync.Mutex
	desk console.Desk            // keeps files unless it has no folder for them
	stop context.CancelCauseFunc // called with what printing failed with
}

// unwrittenError is a message that could not be printed.
type unwrittenError struct{ error }

func (u *unwrittenError) Error() string {
	return "a message could not be printed and falls due again in a minute: " + u.error.Error()
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
	d.At = s.desk.Now()
	if s.desk.Files != "" {
		d.Reply = s.desk.Keep(d.Reply, tuning.Who{Club: d.Club, Person: d.To})
	} else {
		d.Reply = filesByName(d.Reply)
	}
	if err := s.write(d); err != nil {
		err = &unwrittenError{err}
		s.stop(err)
		return err
	}
	return nil
}

func (s *screen) write(d delivery) error {
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

// filesByName puts names in the place of a message's files, which are not
// kept.
func filesByName(message bot.Reply) bot.Reply {
	message.Files = slices.Clone(message.Files)
	for i, f := range message.Files {
		message.Files[i].File = f.Name
	}
	return message
}
