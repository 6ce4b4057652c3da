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
	for left := unread(rest).trimmed(); left != ""; left = left.trimmed() {
		name, after := left.word()
		if name == "" || !strings.HasPrefix(string(after), ":") {
			if len(line.Options) > 0 || name == "" {
				return Line{}, Problemf(tuning.Invalid, "I cannot read %s: write each option as name:value, with quotes round a value that has spaces.", say.Echo(left.upToSpace()))
			}
			line.Words = append(line.Words, strings.ToLower(name))
			left = after
			continue
		}
		value, after, err := after[1:].behindColon().value(name)
		if err != nil {
			return Line{}, err
		}
		line.Options = append(line.Options, Given{strings.ToLower(name), value})
		left = after
	}
	return line, nil
}

// Quote writes a value as ParseLine reads it back.
func Quote(value string) string {
	if value != "" && !strings.ContainsFunc(value, unicode.IsSpace) && !strings.ContainsAny(value, quotes) && !strings.Contains(value, `\`) {
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

// With returns the line with an option set to a value, which replaces the one
// that the line gave.
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
