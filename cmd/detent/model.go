package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"detent/bot"
	"detent/bot/console"
	"detent/tuning/cases"
)

// modelCmd is `detent model`: it puts the question in a file to the vehicle
// model and prints the answer, with no database in between.
type modelCmd struct {
	Kind string  `arg:"" enum:"quarter,car,window,roughness" help:"What to work out: quarter, car, window or roughness."`
	File string  `arg:"" help:"The question: a JSON file; for roughness one elevation in metres a line."`
	JSON bool    `name:"json" help:"Print JSON with all digits."`
	DX   float64 `name:"dx" placeholder:"M" help:"Metres between elevations (roughness only)."`
}

// longestQuestion is the largest file that is read, in bytes: as a profile it is
// some two million elevations.
const longestQuestion = 16 << 20

// usageError is a mistake in what the program was given, and not in the
// program: the exit status is then 2.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

// Run answers the question and writes the answer to out.
func (m *modelCmd) Run(ctx context.Context, out io.Writer) error {
	question, err := console.ReadFile(ctx, m.File, longestQuestion+1)
	unread, none := bot.ProblemOf(err)
	switch {
	case none:
		return usageError{errors.New(unread.Say)}
	case err != nil:
		return err
	case len(question) > longestQuestion:
		return usageError{fmt.Errorf("%s is too large: a question has at most %d MiB", m.File, longestQuestion>>20)}
	}
	answer, err := cases.Run(m.Kind, []byte(question), m.DX)
	if err != nil {
		return usageError{fmt.Errorf("%s: %w", m.File, err)}
	}
	encoded, err := json.MarshalIndent(answer, "", "  ")
	if err != nil {
		return err
	}
	if m.JSON {
		_, err = fmt.Fprintf(out, "%s\n", encoded)
		return err
	}
	return printFigures(out, encoded)
}
