package bot

import (
	"slices"
	"strings"

	"detent/tuning"
)

// unnamed is the command whose name the line's words begin with, where values
// follow it without the names of their options: /symptom understeer exit.
func (c *Catalogue) unnamed(words []string) (Command, bool) {
	i := slices.IndexFunc(c.commands, func(c Command) bool {
		name := strings.Fields(c.Name)
		return len(words) > len(name) && slices.Equal(words[:len(name)], name)
	})
	if i < 0 {
		return Command{}, false
	}
	return c.commands[i], true
}

// refuseUnnamed asks for the names of the options. Where each value can only
// stand for one option that the line lacks, it offers the line with the names.
func (c Command) refuseUnnamed(line Line) error {
	name := strings.Fields(c.Name)
	named := Line{Words: name, Options: line.Options}
	for _, value := range line.Words[len(name):] {
		option, ok := c.optionFor(named, value)
		if !ok {
			return Problemf(tuning.Invalid, "Write each option of /%s as name:value; /help %s lists them.", c.Name, c.Name)
		}
		named = named.With(option, value)
	}
	p := Problemf(tuning.Invalid, "Write each option as name:value: %s.", named)
	p.Actions = []Action{Button("Ask that", named.String())}
	return p
}

// optionFor is the first option that the line lacks and that takes the value as
// one of its words or as a whole number.
func (c Command) optionFor(line Line, value string) (name string, ok bool) {
	for _, o := range c.Options {
		if (o.Kind != Choice && o.Kind != Whole) || line.gives(o.Name) {
			continue
		}
		if _, err := o.decode(value, false); err == nil {
			return o.Name, true
		}
	}
	return "", false
}
