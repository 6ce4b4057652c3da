package console

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"unicode/utf8"

	"golang.org/x/term"

	"detent/bot"
)

// Session answers lines until the input or ctx ends. On a terminal it edits
// lines, keeps a history and completes them with the tab key; Ctrl-C drops the
// line, and twice leaves.
func (d *Desk) Session(ctx context.Context, in *os.File, newID func() string) error {
	if !term.IsTerminal(int(in.Fd())) {
		lines := bufio.NewReader(in)
		return d.answerLines(ctx, func() (string, error) { return readLine(lines) }, "", newID)
	}
	state, err := term.MakeRaw(int(in.Fd()))
	if err != nil {
		return err
	}
	defer term.Restore(int(in.Fd()), state)
	keys := &interrupts{in: in}
	screen := term.NewTerminal(struct {
		io.Reader
		io.Writer
	}{keys, d.Out}, prompt)
	keys.dropped = func() { fmt.Fprintln(screen, "Ctrl-C again leaves.") }
	screen.AutoCompleteCallback = func(line string, pos int, key rune) (string, int, bool) {
		line, pos, choices, ok := d.complete(ctx, line, pos, key)
		if len(choices) > 0 {
			fmt.Fprintln(screen, inColumns(choices, terminalWidth(in)))
		}
		return line, pos, ok
	}
	if width, height, err := term.GetSize(int(in.Fd())); err == nil {
		screen.SetSize(width, height)
	}
	d.Out = screen
	fmt.Fprintln(screen, "Type a line, /help for all of them. Tab completes, Ctrl-C drops the line, Ctrl-D leaves.")
	return d.answerLines(ctx, refusingCut(screen.ReadLine, screen), "/", newID)
}

// longestTyped is where the line editor drops what is typed, in characters.
const longestTyped = 4096

// refusingCut reads a line from the editor, and another in place of one that the
// editor may have cut: half of what was typed must not be answered.
func refusingCut(read func() (string, error), out io.Writer) func() (string, error) {
	return func() (string, error) {
		for {
			line, err := read()
			if utf8.RuneCountInString(line) < longestTyped {
				return line, err
			}
			fmt.Fprintf(out, "That line is too long to type: keep it under %d characters, or hand it over with detent ask.\n", longestTyped)
			if err != nil {
				return "", err
			}
		}
	}
}

// prompt stands before what is typed; the slash of a line may be left out.
const prompt = "detent> "

// readLine reads a line of any length. Of one that is longer than a line may be
// it keeps only enough for it to be refused.
func readLine(in *bufio.Reader) (string, error) {
	var line []byte
	for {
		part, more, err := in.ReadLine()
		if room := bot.MaxLine + 1 - len(line); len(part) > room {
			part = part[:room]
		}
		line = append(line, part...)
		if err != nil && (len(line) == 0 || !errors.Is(err, io.EOF)) || err == nil && !more {
			return string(line), err
		}
		if err != nil {
			return string(line), nil
		}
	}
}

// answerLines answers one line after the other, each with the slash that a
// terminal shows before it. When ctx ends, a read that still waits is
// abandoned.
func (d *Desk) answerLines(ctx context.Context, next func() (string, error), slash string, newID func() string) error {
	type typed struct {
		text string
		err  error
	}
	for d.Err == nil {
		read := make(chan typed, 1)
		go func() {
			text, err := next()
			read <- typed{text, err}
		}()
		select {
		case <-ctx.Done():
			return nil
		case line := <-read:
			switch text := strings.TrimSpace(line.text); {
			case errors.Is(line.err, io.EOF):
				return nil
			case line.err != nil:
				return line.err
			case text != "":
				d.Ask(ctx, newID(), slash+strings.TrimPrefix(text, slash))
			}
		}
	}
	return d.Err
}
