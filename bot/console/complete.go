package console

import (
	"context"
	"os"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"golang.org/x/term"

	"detent/bot"
)

// suggestWithin is how long a person waits for the tab key.
const suggestWithin = 2 * time.Second

// complete finishes the word before the cursor when only one is meant, or as
// far as all that are meant agree; choices are what it can become where that
// adds nothing.
func (d *Desk) complete(ctx context.Context, line string, pos int, key rune) (done string, at int, choices []string, ok bool) {
	if key != '\t' || pos != len(line) {
		return "", 0, nil, false
	}
	start := lastWord(line)
	word := line[start:]
	candidates := d.candidates(ctx, line[:start], word)
	finished := common(candidates)
	if len(candidates) != 1 && (len(finished) <= len(word) || !strings.EqualFold(finished[:len(word)], word)) {
		for _, c := range candidates {
			choices = append(choices, strings.TrimSpace(c))
		}
		return "", 0, choices, false
	}
	line = line[:start] + finished
	return line, len(line), nil, true
}

// lastWord is where the word that is being typed begins; a quote holds a word
// together.
func lastWord(line string) int {
	start, quoted := 0, false
	for i, r := range line {
		switch {
		case r == '"':
			quoted = !quoted
		case r == ' ' && !quoted:
			start = i + 1
		}
	}
	return start
}

// candidates lists what the word being typed can become, after what was typed
// before it: words of a command, its options, and their values.
func (d *Desk) candidates(ctx context.Context, before, word string) []string {
	if option, value, typing := strings.Cut(word, ":"); typing {
		return d.values(ctx, before, option, strings.TrimPrefix(value, `"`))
	}
	typed := strings.Join(strings.Fields(strings.TrimPrefix(strings.TrimSpace(before), "/")), " ")
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
				if !strings.Contains(typed, " "+o.Name+":") {
					add(o.Name + ":")
				}
			}
		}
	}
	return out
}

// values lists what an option that is being typed can become: the club's cars,
// positions, events and members, or the option's own words.
func (d *Desk) values(ctx context.Context, before, option, typed string) []string {
	line, err := bot.ParseLine("/" + strings.TrimPrefix(strings.TrimSpace(before), "/"))
	if err != nil || slices.ContainsFunc(line.Options, func(g bot.Given) bool { return g.Name == option }) {
		return nil
	}
	ctx, cancel := context.WithTimeout(ctx, suggestWithin)
	defer cancel()
	var begin, hold []string
	for _, s := range d.Bot.Suggest(ctx, bot.Ask{Who: d.Who, At: d.Now(), Line: line}, option, typed) {
		value := option + ":" + bot.Quote(s.Value) + " "
		if strings.HasPrefix(strings.ToLower(s.Value), strings.ToLower(typed)) {
			begin = append(begin, value)
		} else {
			hold = append(hold, value)
		}
	}
	if len(begin) > 0 {
		return begin
	}
	return hold
}

// common is the longest beginning that all words share, in whole characters.
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
	for !utf8.ValidString(out) {
		out = out[:len(out)-1]
	}
	return out
}

// inColumns sets words side by side in lines of a width.
func inColumns(words []string, width int) string {
	widest := 0
	for _, w := range words {
		widest = max(widest, utf8.RuneCountInString(w)+2)
	}
	var b strings.Builder
	for i, w := range words {
		if i > 0 && i%max(1, width/widest) == 0 {
			b.WriteString("\n")
		}
		b.WriteString(w + strings.Repeat(" ", widest-utf8.RuneCountInString(w)))
	}
	return strings.TrimRight(b.String(), " ")
}

// terminalWidth is how many columns a terminal has.
func terminalWidth(t *os.File) int {
	if width, _, err := term.GetSize(int(t.Fd())); err == nil && width > 0 {
		return width
	}
	return 80
}
