package bot

import (
	"errors"
	"fmt"

	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/unit"
)

// Inquire is the Problem of a line that lacks something: a question whose buttons
// ask the same line again with the answer filled in.
func Inquire(question string, answers ...Action) *Problem {
	return &Problem{Kind: tuning.Invalid, Say: question, Actions: answers}
}

// Answers are the buttons that give an option of a line: one a value, and for a
// number a form for any other.
func (o Option) Answers(line Line, about ...Named) []Action {
	var all []Action
	for _, c := range o.Choices {
		all = append(all, Button(o.Label(c), line.With(o.Name, c).String(), about...))
	}
	for _, c := range o.Common {
		all = append(all, Button(c, line.With(o.Name, c).String(), about...))
	}
	if len(o.Common) > 0 {
		all = append(all, Button("Another number", line.With(o.Name, Blank).String(), about...))
	}
	return all
}

// Label is a choice as people read it: "Sinks lower over a run of bumps" for
// packs-down.
func (o Option) Label(choice string) string { return say.Choice(o.Name, choice) }

// askable tells whether a missing option can be asked for with buttons.
func (o Option) askable() bool { return len(o.Choices)+len(o.Common) > 0 }

// missing refuses a line that lacks a required option, and asks for it where
// that can be done with buttons.
func (c Command) missing(o Option, line Line) error {
	p := Problemf(tuning.Invalid, "%s", c.lacking(o))
	p.Actions = o.Answers(line)
	if o.Question != "" {
		p.Say = o.Question
	}
	return p
}

// whichReading asks which of its two readings is meant where a number is
// ambiguous. Any other error it returns as it is.
func (l Line) whichReading(option string, err error) error {
	number, ok := errors.AsType[*unit.Ambiguous](err)
	if !ok {
		return err
	}
	p := Inquire(fmt.Sprintf("%s %s: which do you mean?", option, say.Legible(number.Text)))
	p.Err = err
	for _, reading := range []string{number.Decimal, number.Thousands} {
		p.Actions = append(p.Actions, Button(reading, l.With(option, reading).String()))
	}
	return p
}

// Option is the declaration of an option of the command that is being asked, for
// a command that asks for it itself.
func (c Call) Option(name string) Option {
	command, err := c.Catalogue.Find(c.Ask.Line)
	if err != nil {
		return Option{}
	}
	b, _ := command.binding(name)
	return b.Option
}

// Missing asks for an option that the line being answered lacks; the thing that
// it is about goes by its number in the buttons.
func (c Call) Missing(name string, about ...Named) error {
	o, line := c.Option(name), c.Ask.Line
	for _, n := range about {
		line = line.Without(n.option)
	}
	return Inquire(o.Question, o.Answers(line, about...)...)
}
