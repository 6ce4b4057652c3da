package discord

import (
	"regexp"
	"slices"
	"strings"

	"detent/bot"
)

// mentionOf is a person as the platform writes them when somebody calls them.
var mentionOf = regexp.MustCompile(`<@!?(\d{17,20})>`)

// unmention returns a line that names members by their keys where they were
// called in an option that takes members.
func unmention(lines *bot.Catalogue, line bot.Line) bot.Line {
	command, _ := lines.Lookup(line)
	options := slices.Clone(line.Options)
	for i, g := range options {
		takes := func(o bot.Option) bool {
			return o.Name == g.Name && (o.Source == bot.FromMembers || o.Source == bot.FromPeople)
		}
		if slices.ContainsFunc(command.Options, takes) && mentionOf.MatchString(g.Value) {
			options[i].Value = strings.Trim(mentionOf.ReplaceAllString(g.Value, ",$1,"), ", ")
		}
	}
	line.Options = options
	return line
}
