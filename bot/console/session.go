package console

import (
	"bufio"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"golang.org/x/term"
)

// Session answers lines until the input or ctx ends. On a terminal it edits
// lines, keeps a history and completes commands and options with the tab key.
func (d *Desk) Session(ctx context.Context, in *os.File, newID func() string) error {
	if !term.IsTerminal(int(in.Fd())) {
		lines := bufio.NewScanner(in)
		next := func() (string, error) {
			if lines.Scan() {
				return lines.Text(), nil
			}
			return "", cmp.Or(lines.Err(), io.EOF)
		}
		return d.answerLines(ctx, next, "", newID)
	}
	state, err := term.MakeRaw(int(in.Fd()))
	if err != nil {
		return err
	}
	defer term.Restore(int(in.Fd()), state)
	screen := term.NewTerminal(struct {
		io.Reader
		io.Writer
	}{in, d.Out}, "/")
	screen.AutoCompleteCallback = d.complete
	if width, height, err := term.GetSize(int(in.Fd())); err == nil {
		screen.SetSize(width, height)
	}
	d.Out = screen
	fmt.Fprintln(screen, "Type a line, /help for all of them, Ctrl-D to leave. Tab completes.")
	return d.answerLines(ctx, screen.ReadLine, "/", newID)
}

// answerLines answers one line after the other, each with the slash that a
// terminal shows before it. A reading that nothing comes to is left behind when
// ctx ends.
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

// complete finishes the word before the cursor when only one is meant, or as
// far as all that are meant agree.
func (d *Desk) complete(line string, pos int, key rune) (string, int, bool) {
	if key != '\t' || pos != len(line) {
		return "", 0, false
	}
	start := strings.LastIndexByte(line, ' ') + 1
	typed := strings.Join(strings.Fields(strings.TrimPrefix(line[:start], "/")), " ")
	done := common(d.candidates(typed, line[start:]))
	if len(done) <= len(line)-start {
		return "", 0, false
	}
	line = line[:start] + done
	return line, len(line), true
}

// candidates lists what the word being typed can become, after what was typed
// before it: words of a command, then its options and their choices.
func (d *Desk) candidates(typed, word string) []string {
	slash := ""
	if typed == "" && strings.HasPrefix(word, "/") {
		slash = "/"
	}
	var out []string
	add := func(s string) {
		if strings.HasPrefix(s, word) && !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	for _, c := range d.Lines.Commands() {
		first, second, _ := strings.Cut(c.Name, " ")
		switch {
		case typed == "":
			add(slash + first + " ")
		case typed == first && second != "":
			add(second + " ")
		case typed == c.Name || strings.HasPrefix(typed, c.Name+" "):
			for _, o := range c.Options {
				if strings.Contains(typed, " "+o.Name+":") {
					continue
				}
				add(o.Name + ":")
				for _, choice := range o.Choices {
					if strings.HasPrefix(word, o.Name+":") {
						add(o.Name + ":" + choice + " ")
					}
				}
			}
		}
	}
	return out
}

// common is the longest beginning that all words share.
func common(words []string) string {
	if len(words) == 0 {
		return ""
	}
	out := words[0]
	for _, w := range words[1:] {
		n := 0
		for n < len(out) && n < len(w) && out[n] == w[n] {
			n++
		}
		out = out[:n]
	}
	return out
}
