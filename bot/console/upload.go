package console

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"syscall"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
)

// uploads reads the files that a line's file options name, no further than a
// command could use.
func (d *Desk) uploads(ctx context.Context, line bot.Line) (map[string]string, error) {
	var files map[string]string
	for _, o := range line.Options {
		if !d.Lines.TakesFile(line, o.Name) {
			continue
		}
		content, err := ReadFile(ctx, o.Value, tuning.MaxTableBytes+1)
		if err != nil {
			return nil, err
		}
		if files == nil {
			files = map[string]string{}
		}
		files[o.Name] = content
	}
	return files, nil
}

// ReadFile reads at most that many bytes of an ordinary file until ctx ends: one
// on a disk far away may keep a read waiting for as long as it likes. It returns
// a *bot.Problem.
func ReadFile(ctx context.Context, path string, most int64) (string, error) {
	type result struct {
		content string
		err     error
	}
	read := make(chan result, 1)
	go func() {
		content, err := readOrdinary(path, most)
		read <- result{content, err}
	}()
	select {
	case r := <-read:
		return r.content, r.err
	case <-ctx.Done():
		return "", &bot.Problem{Kind: tuning.Internal, Say: fmt.Sprintf("Reading the file %s was given up: try again.", say.Echo(path)), Err: ctx.Err()}
	}
}

// readOrdinary refuses what is no ordinary file before it opens it: to open a
// pipe waits for whoever writes to it, and to open a device may do anything.
func readOrdinary(path string, most int64) (string, error) {
	if info, err := os.Stat(path); err != nil || !info.Mode().IsRegular() {
		return "", unreadable(path, err)
	}
	f, err := os.OpenFile(path, os.O_RDONLY|syscall.O_NONBLOCK, 0) // it may have become a pipe since
	if err != nil {
		return "", unreadable(path, err)
	}
	defer f.Close()
	if info, err := f.Stat(); err != nil || !info.Mode().IsRegular() {
		return "", unreadable(path, err)
	}
	content, err := io.ReadAll(io.LimitReader(f, most))
	if err != nil {
		return "", unreadable(path, err)
	}
	return string(content), nil
}

// unreadable is the Problem with a file; without an error it is not an ordinary
// one.
func unreadable(path string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return &bot.Problem{Kind: tuning.NotFound, Say: fmt.Sprintf("The file %s is not there: check its name.", say.Echo(path)), Err: err}
	case err != nil:
		return &bot.Problem{Kind: tuning.NotFound, Say: fmt.Sprintf("The file %s cannot be read: check its name and who may read it.", say.Echo(path)), Err: err}
	}
	return bot.Problemf(tuning.Invalid, "%s is not an ordinary file: give a file, not a folder, a pipe or a device.", say.Echo(path))
}
