package main

import (
	"context"
	"fmt"
	"log/slog"
	"time"

	"detent/bot"
	"detent/bot/console"
	"detent/store/localpg"
	"detent/tuning"
)

// terminalRecords are the records for somebody at a terminal of this machine, who
// looks after the private database's disk and after the files that replies were
// written to.
type terminalRecords struct {
	records
	private string // the private database's folder, "" when it is not used
	files   string
}

// privateFolder is the data folder when the private database in it is used,
// and "" when another database is named.
func (c *Config) privateFolder(data string) string {
	if c.DatabaseURL != "" {
		return ""
	}
	return data
}

func (t terminalRecords) Read(ctx context.Context, who tuning.Who, now time.Time, fn func(bot.Book) error) error {
	return t.told(t.records.Read(ctx, who, now, fn))
}

// told words a refusal for whoever runs the program.
func (t terminalRecords) told(err error) error {
	err = nameDisk(err, t.private)
	if p, ok := bot.OperatorProblemOf(err); ok {
		return p
	}
	return err
}

// Once removes a person's files after the record has erased them.
func (t terminalRecords) Once(ctx context.Context, who tuning.Who, now time.Time, id string, fn func(bot.Book) (bot.Reply, error)) (bot.Reply, error) {
	var erased []string
	reply, err := t.records.Once(ctx, who, now, id, func(b bot.Book) (bot.Reply, error) {
		erased = nil // of a try that was taken back
		return fn(erasureNoted{b, &erased})
	})
	if err != nil {
		return reply, t.told(err)
	}
	for _, person := range erased {
		if err := console.Forget(t.files, tuning.Who{Club: who.Club, Person: person}); err != nil {
			reply.Notes = append(reply.Notes, fmt.Sprintf("Some of your files in %s could not be removed: %v", t.files, err))
		}
	}
	return reply, nil
}

// erasureNoted notes who is erased.
type erasureNoted struct {
	bot.Book
	erased *[]string
}

func (e erasureNoted) Erase(ctx context.Context, person string) error {
	err := e.Book.Erase(ctx, person)
	if err == nil {
		*e.erased = append(*e.erased, person)
	}
	return err
}

// sweepFiles removes the pictures and files that have been kept long enough. It
// goes by the real clock even in a rehearsal, since the files' ages are real.
func sweepFiles(files string, log *slog.Logger) {
	if err := console.Sweep(files, time.Now().Add(-console.Kept)); err != nil {
		log.Warn("old pictures and files could not be removed", "err", err)
	}
}

// sweepDaily sweeps now and once a day, until ctx ends.
func sweepDaily(ctx context.Context, files string, log *slog.Logger) {
	day := time.NewTicker(24 * time.Hour)
	defer day.Stop()
	for {
		sweepFiles(files, log)
		select {
		case <-day.C:
		case <-ctx.Done():
			return
		}
	}
}

// nameDisk tells which disk is full when that is why the private database in a
// folder failed. A server that has stopped because its disk is full only looks
// gone, so the disk itself is measured.
func nameDisk(err error, folder string) error {
	if folder == "" || tuning.KindOf(err) != tuning.Internal {
		return err
	}
	disk, full := localpg.FullDisk(folder)
	if !full {
		return err
	}
	return &bot.Problem{Kind: tuning.Internal, Err: err,
		Say: fmt.Sprintf("The disk at %s is full, and the record in %s can take nothing in: make room on that disk and try again.", disk, folder)}
}
