package clubroom

import (
	"context"
	"strings"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
)

func helpCommand() bot.Command {
	return declare(bot.Command{Name: "help", Help: "The lines, or one of them in full", Private: true}, showHelp)
}

type helpOptions struct {
	Command string   `name:"command" help:"the line to explain, for example symptom"`
	Part    helpPart `name:"part" help:"a part of the help"`
	bot.MoreOption
}

func showHelp(_ context.Context, call call, o helpOptions) (bot.Reply, error) {
	switch {
	case o.Command != "":
		return helpOn(call.Catalogue, o)
	case o.Part != "":
		return helpWith(call, o), nil
	}
	return bot.Reply{
		Title: "Start soft, one change at a time, write it down",
		Text:  "First: /car add, /damper fit, /baseline. At the track: /symptom, then /feel. Lost: /log and /undo.",
		Notes: append(linesOf(call, ""),
			say.ModelLacks,
			"What is kept about you, why, how long, and how to have it removed: /privacy."),
		Cautions: say.Cautions([]tuning.Caution{tuning.Closed}),
		Actions:  partButtons(),
		View:     bot.View{Size: phone.List, Quiet: true},
	}, nil
}

// helpOn explains one line, or each line under one word.
func helpOn(catalogue *bot.Catalogue, o helpOptions) (bot.Reply, error) {
	name := strings.TrimPrefix(strings.TrimSpace(strings.ToLower(o.Command)), "/")
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
		_, err := catalogue.Find(bot.Line{Words: strings.Fields(name)})
		return bot.Reply{}, err
	}
	reply := bot.Reply{Title: "/" + name, Text: notes[0], Notes: notes[1:], View: bot.View{Size: phone.Page}}
	return o.Paged(reply, "/help command:"+bot.Quote(name)), nil
}
