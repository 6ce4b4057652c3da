package bot

import (
	"slices"
	"strings"
	"unicode"

	"detent/bot/say"
	"detent/tuning"
)

// Line is one typed line, taken apart: "/car add name:\"Blue hatch\"
// drive:front".
type Line struct {
	Words   []string // the command's one or two words
	Options []Given  // in the order typed
}

// Given is one option as typed.
type Given struct {
	Name  string
	Value string
}

// MaxLine is the longest line read, in bytes.
const MaxLine = 8000

// ParseLine takes a line apart. It knows the form of a line and not the
// commands; it returns a Problem that says what is wrong with the form.
func ParseLine(text string) (Line, error) {
	if len(text) > MaxLine {
		return Line{}, Problemf(tuning.Limit, "That line is too long: keep it under %d bytes.", MaxLine)
	}
	text = strings.ToValidUTF8(strings.TrimSpace(text), "")
	rest, ok := strings.CutPrefix(text, "/")
	if !ok {
		return Line{}, Problemf(tuning.Invalid, "Start with a slash, for example /help.")
	}
	var line Line
	for rest = strings.TrimLeftFunc(rest, unicode.IsSpace); rest != ""; rest = strings.TrimLeftFunc(rest, unicode.IsSpace) {
		name, after := word(rest)
		if name == "" || !strings.HasPrefix(after, ":") {
			if len(line.Options) > 0 || name == "" {
				return Line{}, Problemf(tuning.Invalid, "I cannot read %s: write each option as name:value, with quotes round a value that has spaces.", say.Echo(firstWord(rest)))
			}
			line.Words = append(line.Words, strings.ToLower(name))
			rest = after
			continue
		}
		value, after, err := value(afterColon(after[1:]), name)
		if err != nil {
			return Line{}, err
		}
		line.Options = append(line.Options, Given{strings.ToLower(name), value})
		rest = after
	}
	return line, nil
}

// afterColon drops the space that phones put behind a colon, when what follows
// is a value and not the next option.
func afterColon(text string) string {
	trimmed := strings.TrimLeftFunc(text, unicode.IsSpace)
	name, rest := word(trimmed)
	if strings.HasPrefix(rest, ":") && strings.IndexFunc(name, unicode.IsLetter) == 0 {
		return text
	}
	return trimmed
}

// word reads up to a space or a colon.
func word(text string) (word, rest string) {
	end := strings.IndexFunc(text, func(r rune) bool { return unicode.IsSpace(r) || r == ':' })
	if end < 0 {
		return text, ""
	}
	return text[:end], text[end:]
}

func firstWord(text string) string {
	if i := strings.IndexFunc(text, unicode.IsSpace); i >= 0 {
		return text[:i]
	}
	return text
}

// value reads a value: up to a space, or between quotes, inside which \" and
// \\ stand for themselves. The curly quotes that phones type are quotes too.
func value(text, name string) (value, rest string, err error) {
	r := []rune(text)
	if len(r) == 0 || !isQuote(r[0]) {
		end := strings.IndexFunc(text, unicode.IsSpace)
		if end < 0 {
			end = len(text)
		}
		return text[:end], text[end:], nil
	}
	var b strings.Builder
	for i := 1; i < len(r); i++ {
		switch {
		case r[i] == '\\' && i+1 < len(r) && (isQuote(r[i+1]) || r[i+1] == '\\'):
			i++
			b.WriteRune(r[i])
		case closes(r[0], r[i]):
			rest = string(r[i+1:])
			if rest != "" && !unicode.IsSpace(r[i+1]) {
				return "", "", Problemf(tuning.Invalid, "Put a space after the closing quote of %s; a quote inside the value is typed \\\".", say.Legible(name))
			}
			return b.String(), rest, nil
		default:
			b.WriteRune(r[i])
		}
	}
	return "", "", Problemf(tuning.Invalid, "The quote after %s: is never closed: add one at the end of the value.", say.Legible(name))
}

func isQuote(r rune) bool { return r == '"' || r == '“' || r == '”' || r == '„' }

// closes tells whether a quote ends what another began: straight by straight,
// curly by curly.
func closes(open, r rune) bool { return isQuote(r) && (open == '"') == (r == '"') }

// Quote writes a value as ParseLine reads it back.
func Quote(value string) string {
	if value != "" && !strings.ContainsFunc(value, unicode.IsSpace) && !strings.ContainsFunc(value, isQuote) && !strings.Contains(value, `\`) {
		return value
	}
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "“", `\“`, "”", `\”`, "„", `\„`).Replace(value) + `"`
}

// gives tells whether the line names an option.
func (l Line) gives(option string) bool {
	for _, g := range l.Options {
		if g.Name == option {
			return true
		}
	}
	return false
}

// With returns the line with an option of that value, in the place of what it
// gave for it.
func (l Line) With(option, value string) Line {
	l.Options = slices.Clone(l.Options)
	for i, g := range l.Options {
		if g.Name == option {
			l.Options[i].Value = value
			return l
		}
	}
	l.Options = append(l.Options, Given{option, value})
	return l
}

// Without returns the line without an option.
func (l Line) Without(option string) Line {
	l.Options = slices.DeleteFunc(slices.Clone(l.Options), func(g Given) bool { return g.Name == option })
	return l
}

// String writes the line as ParseLine reads it.
func (l Line) String() string {
	text := "/"
	for i, w := range l.Words {
		if i > 0 {
			text += " "
		}
		text += w
	}
	for _, g := range l.Options {
		text += " " + g.Name + ":" + Quote(g.Value)
	}
	return text
}
