package discord

import (
	"context"
	"slices"
	"strings"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
)

// maxOptions is the most options that the platform lists for one command. What
// a command declares beyond them is typed into one last option, moreOption, as
// name:value pairs. Only this way in knows it: a line has all its names.
const (
	maxOptions = 25
	moreOption = "more"
)

// listed parts a command's options into those that the platform lists, the
// required ones first as it demands, and those that moreOption takes.
func listed(c bot.Command) (listed, more []bot.Option) {
	listed = slices.Clone(c.Options)
	slices.SortStableFunc(listed, func(a, b bot.Option) int {
		switch first := demanded(a); {
		case first == demanded(b):
			return 0
		case first:
			return -1
		}
		return 1
	})
	if len(listed) <= maxOptions {
		return listed, nil
	}
	for i := len(listed) - 1; len(listed) >= maxOptions && i >= 0; i-- {
		if o := listed[i]; !o.Required && !picked(o) {
			listed, more = slices.Delete(listed, i, i+1), append(more, o)
		}
	}
	slices.Reverse(more)
	return listed, more
}

// demanded tells whether a command is not sent without an option. One that the
// command itself asks for may be left out.
func demanded(o bot.Option) bool { return o.Required && !o.Later }

// picked tells whether the value of an option is picked and not typed.
func picked(o bot.Option) bool {
	return slices.Contains([]bot.Kind{bot.Upload, bot.Place, bot.Badge}, o.Kind)
}

// moreOf declares moreOption for options that are not listed.
func moreOf(options []bot.Option) bot.Option {
	return bot.Option{Name: moreOption, Help: "more, each as name:value with spaces between: " + strings.Join(namesOf(options), ", ")}
}

func namesOf(options []bot.Option) []string {
	names := make([]string, len(options))
	for i, o := range options {
		names[i] = o.Name
	}
	return names
}

// spread returns a line with what was typed into moreOption as options of
// their own.
func spread(lines *bot.Catalogue, line bot.Line) (bot.Line, error) {
	command, _ := lines.Lookup(line)
	_, more := listed(command)
	at := slices.IndexFunc(line.Options, func(g bot.Given) bool { return g.Name == moreOption })
	if at < 0 || len(more) == 0 {
		return line, nil
	}
	pairs, err := readPairs(line.Options[at].Value)
	if err != nil {
		return line, bot.Problemf(tuning.Invalid, "more takes name:value with spaces between, for these options: %s.", strings.Join(namesOf(more), ", "))
	}
	for _, pair := range pairs {
		for _, o := range command.Options {
			if o.Name == pair.Name && picked(o) {
				return line, bot.Problemf(tuning.Invalid, "%s is an option of its own: choose it there and not in more.", o.Name)
			}
		}
	}
	line.Options = slices.Concat(line.Options[:at], pairs, line.Options[at+1:])
	return line, nil
}

// readPairs reads what is typed into moreOption: name:value name:"two words".
func readPairs(text string) ([]bot.Given, error) {
	line, err := bot.ParseLine("/" + text)
	if err == nil && len(line.Words) > 0 {
		err = bot.Problemf(tuning.Invalid, "%s is not name:value.", say.Echo(line.Words[0]))
	}
	return line.Options, err
}

// offers are suggestions for the option being typed. In moreOption that is the
// name or the value at its end.
func (b *Bot) offers(ctx context.Context, ask bot.Ask, option, typed string) []bot.Suggestion {
	command, _ := b.config.Lines.Lookup(ask.Line)
	_, more := listed(command)
	if option != moreOption || len(more) == 0 {
		return b.bot.Suggest(ctx, ask, option, typed)
	}
	before, last := lastPair(typed)
	pairs, err := readPairs(before)
	if err != nil {
		return nil
	}
	ask.Line.Options = slices.Concat(ask.Line.Options, pairs)
	var found []bot.Suggestion
	if name, value, ok := strings.Cut(last, ":"); ok {
		for _, s := range b.bot.Suggest(ctx, ask, name, strings.Trim(value, `"`)) {
			found = append(found, bot.Suggestion{Value: before + name + ":" + bot.Quote(s.Value), Label: name + ": " + s.Label})
		}
		return found
	}
	for _, o := range more {
		given := slices.ContainsFunc(ask.Line.Options, func(g bot.Given) bool { return g.Name == o.Name })
		if !given && strings.HasPrefix(o.Name, strings.ToLower(last)) {
			found = append(found, bot.Suggestion{Value: before + o.Name + ":", Label: o.Name + ": " + o.Hint()})
		}
	}
	return found
}

// lastPair parts what is being typed into moreOption behind its last whole pair.
func lastPair(typed string) (before, last string) {
	for end := strings.LastIndex(typed, " "); end >= 0; end = strings.LastIndex(typed[:end], " ") {
		if _, err := readPairs(typed[:end]); err == nil {
			return typed[:end+1], typed[end+1:]
		}
	}
	return "", typed
}
