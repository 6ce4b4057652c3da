package bot

import (
	"context"
	"slices"
	"strings"
	"time"

	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/unit"
)

// Command declares one line that can be asked. Registration with a platform,
// the console's completion, /help and the README's table all read it.
type Command struct {
	Name    string // one or two words: "car add"
	Help    string // one line
	Role    tuning.Role
	Private bool // the reply is for the asking person alone
	Writes  bool // it may change something, so it is answered once an id
	Options []Option
	Form    []string // the options a form asks for when a button gives none of them
	Answer  func(ctx context.Context, call Call) (Reply, error)
}

// Call is one ask of a command: who, what and when, and the book it may use.
type Call struct {
	Ask    Ask
	Args   Args
	Book   Book
	Member tuning.Member
	Club   tuning.Club
}

// owner is the person whose things a call is about.
func (c Call) owner() string { return c.Ask.Who.Person }

func (c Call) now() time.Time { return c.Ask.At }

// imperial tells in which units the person reads.
func (c Call) imperial() bool { return imperial(c.Member, c.Club) }

func imperial(m tuning.Member, c tuning.Club) bool {
	return m.Units == tuning.Imperial || (m.Units == "" && c.Units == tuning.Imperial)
}

func (c Command) option(name string) (Option, bool) {
	if alias, ok := aliases[name]; ok { // compression is bump
		name = alias
	}
	i := slices.IndexFunc(c.Options, func(o Option) bool { return o.Name == name })
	if i < 0 {
		return Option{}, false
	}
	return c.Options[i], true
}

func (c Command) optionNames() []string {
	names := make([]string, len(c.Options))
	for i, o := range c.Options {
		names[i] = o.Name
	}
	return names
}

// Usage is the command as it is typed, with what may be left out in brackets.
func (c Command) Usage() string {
	words := []string{"/" + c.Name}
	for _, o := range c.Options {
		word := o.Name + ":" + o.form()
		if !o.Required {
			word = "[" + word + "]"
		}
		words = append(words, word)
	}
	return strings.Join(words, " ")
}

// form is a placeholder or the choices of an option's value.
func (o Option) form() string {
	switch o.Kind {
	case Choice:
		if len(o.Choices) > 7 {
			return "WORD"
		}
		return strings.Join(o.Choices, "|")
	case Whole:
		return "N"
	case Quantity:
		return map[unit.Dimension]string{unit.OfMass: "1250kg", unit.OfLength: "2.55m", unit.OfStiffness: "70N/mm",
			unit.OfShare: "54%", unit.OfRatio: "0.95"}[o.Of]
	case Lap:
		return "1:23.4"
	case Upload:
		return "FILE"
	case Moment:
		return `"2026-05-16 09:00"`
	case TimeOfDay:
		return "21:30"
	case Length:
		return "3h"
	}
	return "TEXT"
}

// example shows the person how to give a missing option.
func (o Option) example() string {
	if o.Kind == Choice {
		return o.Name + ":" + say.OneOf(o.Choices)
	}
	return o.Help + ", " + o.Name + ":" + o.form()
}
