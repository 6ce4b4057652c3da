package bot

import (
	"fmt"
	"slices"
	"strings"

	"detent/bot/say"
	"detent/bot/spelling"
	"detent/tuning"
)

// Catalogue is every line that can be asked. It is made once, and whoever needs
// the declarations reads it: the router, the ways in, /help and the README.
type Catalogue struct{ commands []Command }

// NewCatalogue joins the commands of the rooms, in the order /help shows them.
// It panics when two bear one name.
func NewCatalogue(rooms ...[]Command) *Catalogue {
	commands := slices.Concat(rooms...)
	names := map[string]bool{}
	for _, c := range commands {
		if names[c.Name] {
			panic(fmt.Sprintf("/%s is declared twice", c.Name))
		}
		names[c.Name] = true
	}
	return &Catalogue{commands}
}

// Commands lists every command, in the order /help shows them.
func (c *Catalogue) Commands() []Command { return slices.Clone(c.commands) }

// Lookup finds the command that a line asks.
func (c *Catalogue) Lookup(line Line) (Command, bool) {
	command, err := c.Find(line)
	return command, err == nil
}

// Find finds the command that a line asks. The Problem for words that name none
// offers the nearest.
func (c *Catalogue) Find(line Line) (Command, error) {
	words := line.Words
	name := strings.Join(words, " ")
	i := slices.IndexFunc(c.commands, func(c Command) bool { return c.Name == name })
	if i >= 0 {
		return c.commands[i], nil
	}
	if command, ok := c.unnamed(words); ok {
		return Command{}, command.refuseUnnamed(line)
	}
	var names, under []string
	for _, c := range c.commands {
		names = append(names, c.Name)
		if group, word, ok := strings.Cut(c.Name, " "); ok && len(words) > 0 && group == words[0] {
			under = append(under, word)
		}
	}
	switch {
	case name == "":
		return Command{}, Problemf(tuning.Invalid, "Say what you need after the slash; /help lists the commands.")
	case len(under) > 0 && len(words) == 1:
		return Command{}, Problemf(tuning.Invalid, "/%s needs a second word: %s.", name, say.OneOf(under))
	case len(under) > 0:
		return Command{}, Problemf(tuning.Invalid, "/%s cannot %s%s; it can %s.", words[0], say.Legible(strings.Join(words[1:], " ")), spelling.DidYouMean(words[1], under), say.OneOf(under))
	}
	return Command{}, Problemf(tuning.Invalid, "I do not know /%s%s; /help lists the commands.", say.Legible(name), spelling.DidYouMean(name, names))
}

// Complete tells whether a line gives all that its command requires, so that
// it can be asked as it stands: what is missing is asked for with buttons.
func (c *Catalogue) Complete(text string) bool {
	line, err := ParseLine(text)
	if err != nil {
		return false
	}
	command, err := c.Find(line)
	if err != nil || len(line.blanks()) > 0 {
		return false
	}
	for _, o := range command.Options {
		if o.Required && !line.gives(o.Name) && !o.askable() {
			return false
		}
	}
	return true
}

// ToType is the line of a button that leaves something to a form, as it is typed
// where there are no forms: with an ellipsis for each value that is still to be
// given. ok is false for a line that opens no form.
func (c *Catalogue) ToType(text string) (typed string, ok bool) {
	line, err := ParseLine(text)
	if err != nil || c.Complete(text) {
		return "", false
	}
	form, ok := c.FormFor(line)
	if !ok {
		return "", false
	}
	typed = line.WithoutBlanks().String()
	for _, f := range form.Fields {
		if f.Required || slices.Contains(line.blanks(), f.Name) {
			typed += " " + f.Name + ":…"
		}
	}
	return typed, true
}

// TakesFile tells whether an option of the line's command is a file.
func (c *Catalogue) TakesFile(line Line, option string) bool {
	command, err := c.Find(line)
	if err != nil {
		return false
	}
	o, ok := command.binding(option)
	return ok && o.Kind == Upload
}
