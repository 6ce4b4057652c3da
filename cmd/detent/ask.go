package main

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"log/slog"
	"path/filepath"
	"time"

	"detent/bot"
	"detent/bot/console"
	"detent/tuning"
)

// asker is who asks from a terminal, and how they want the answer.
type asker struct {
	As   string     `default:"you" placeholder:"NAME" help:"Who asks (default: you)."`
	Club string     `default:"paddock" placeholder:"NAME" help:"In which club (default: paddock)."`
	Role string     `default:"member" enum:"member,coach,organiser" help:"As a member, a coach or an organiser."`
	At   *time.Time `placeholder:"TIME" help:"The time to take for now, as RFC 3339, for rehearsal."`
	Full bool       `name:"full" help:"Print all of each reply, not its message alone."`
	JSON bool       `name:"json" help:"Print each reply as one line of JSON."`
}

// desk opens the database and returns the asker's desk on it. The caller calls
// close.
func (a *asker) desk(ctx context.Context, config *Config, s *streams) (desk *console.Desk, close func() error, err error) {
	for _, key := range []struct{ flag, name string }{{"--as", a.As}, {"--club", a.Club}} {
		if n := len([]rune(key.name)); n == 0 || n > longestKey {
			return nil, nil, usageError{fmt.Errorf("give %s a name of 1 to %d characters, or leave it out", key.flag, longestKey)}
		}
	}
	now, err := clockAt(a.At)
	if err != nil {
		return nil, nil, err
	}
	dir, err := config.dataFolder()
	if err != nil {
		return nil, nil, err
	}
	db, close, err := config.open(ctx, atTime(a.At))
	if err != nil {
		return nil, nil, err
	}
	log := slog.New(slog.NewJSONHandler(s.errs, nil))
	files := filepath.Join(dir, "files")
	sweepFiles(files, log)
	return &console.Desk{
		Bot: bot.NewRouter(lines, terminalRecords{records{db}, config.privateFolder(dir), files}, log), Lines: lines, Now: now, JSON: a.JSON, Full: a.Full, Out: s.out, Files: files,
		Who: tuning.Who{Club: a.Club, Person: a.As, Name: a.As, Role: tuning.Role(a.Role)},
	}, close, nil
}

// longestKey is the longest name of a club, a person or a request, in
// characters.
const longestKey = 200

// newID makes an id for a request that came without one.
func newID() string { return rand.Text() }

type askCmd struct {
	asker `embed:""`
	ID    string   `name:"id" placeholder:"ID" help:"The request's name: the same again returns the first reply (with one LINE only)."`
	Lines []string `arg:"" name:"line" help:"The lines, each one argument: '/symptom what:understeer where:exit'."`
}

// Run answers each line. A line with a problem does not stop those after it.
func (a *askCmd) Run(ctx context.Context, config *Config, s *streams) (err error) {
	if a.ID != "" && len(a.Lines) != 1 {
		return usageError{fmt.Errorf("--id names one request: give one LINE with it, not %d", len(a.Lines))}
	}
	if len([]rune(a.ID)) > longestKey {
		return usageError{fmt.Errorf("keep --id under %d characters", longestKey+1)}
	}
	desk, close, err := a.desk(ctx, config, s)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, close()) }()
	var last bot.Reply
	for _, line := range a.Lines {
		id := a.ID
		if id == "" {
			id = newID()
		}
		last = desk.Ask(ctx, id, line)
	}
	if desk.Err != nil {
		return desk.Err
	}
	if last.Problem != nil {
		return errProblem
	}
	return nil
}

type consoleCmd struct {
	asker `embed:""`
}

// Run answers lines until the end of input.
func (c *consoleCmd) Run(ctx context.Context, config *Config, s *streams) (err error) {
	desk, close, err := c.desk(ctx, config, s)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, close()) }()
	return desk.Session(ctx, s.in, newID)
}
