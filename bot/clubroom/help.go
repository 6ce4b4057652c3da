package clubroom

import (
	"context"
	"fmt"
	"strings"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
)

func helpCommand() bot.Command {
	return declare(bot.Command{Name: "help", Help: "The lines, or one of them in full", Private: true}, showHelp)
}

type helpOptions struct {
	Command string `name:"command" help:"the line to explain, for example symptom"`
}

func showHelp(_ context.Context, call call, o helpOptions) (bot.Reply, error) {
	if o.Command != "" {
		return helpOn(call.Catalogue, o.Command)
	}
	var lines []string
	for _, c := range call.Catalogue.Commands() {
		if call.Ask.Who.Role.Allows(c.Role) {
			lines = append(lines, fmt.Sprintf("/%s: %s", c.Name, c.Help))
		}
	}
	return bot.Reply{
		Title: "Start soft, one change at a time, write it down",
		Text:  "First: /car add, /damper fit, /baseline. At the track: /symptom, then /feel. Lost: /log and /undo.",
		Notes: append(lines,
			say.ModelLacks,
			"What is kept about you, why, how long, and how to have it removed: /privacy."),
		Cautions: say.Cautions([]tuning.Caution{tuning.Closed}),
	}, nil
}

// helpOn explains one line, or each line under one word.
func helpOn(catalogue *bot.Catalogue, name string) (bot.Reply, error) {
	name = strings.TrimPrefix(strings.TrimSpace(strings.ToLower(name)), "/")
	var notes []string
	for _, c := range catalogue.Commands() {
		if c.Name != name && !strings.HasPrefix(c.Name, name+" ") {
			continue
		}
		notes = append(notes, c.Help+": "+c.Usage())
		for _, o := range c.Options {
			note := o.Name + ": " + o.Help
			if o.Kind == bot.Choice {
				note += " (" + say.OneOf(o.Choices) + ")"
			}
			notes = append(notes, note)
		}
	}
	if name == "symptom" {
		for _, w := range tuning.Whats {
			notes = append(notes, string(w.What)+": "+w.Means)
		}
	}
	if len(notes) == 0 {
		_, err := catalogue.Find(strings.Fields(name))
		return bot.Reply{}, err
	}
	return bot.Reply{Title: "/" + name, Text: notes[0], Notes: notes[1:]}, nil
}
