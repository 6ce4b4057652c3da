package discord

import (
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"time"

	"github.com/bwmarrin/discordgo"

	"detent/bot"
	"detent/bot/discord/gateway"
	"detent/bot/discord/rest"
)

// command and option are a slash command as it is registered. They have what
// is declared and nothing more, so that what the platform has can be compared
// with what it should have.
type command struct {
	Name        string   `json:"name"`
	Description string   `json:"description"`
	Contexts    []int    `json:"contexts,omitempty"`
	Options     []option `json:"options,omitempty"`
}

type option struct {
	Type         discordgo.ApplicationCommandOptionType `json:"type"`
	Name         string                                 `json:"name"`
	Description  string                                 `json:"description"`
	Required     bool                                   `json:"required,omitempty"`
	Autocomplete bool                                   `json:"autocomplete,omitempty"`
	Choices      []choice                               `json:"choices,omitempty"`
	Min          *int                                   `json:"min_value,omitempty"`
	Max          *int                                   `json:"max_value,omitempty"`
	Options      []option                               `json:"options,omitempty"`
}

// inClubs is where commands can be typed: in a workspace, whose club is then
// known, and not in messages to one person.
const inClubs = 0

// maxHelp is the longest description, maxChoices the most choices that are
// listed at once; more are suggested while the person types.
const (
	maxHelp    = 100
	maxChoices = 25
)

// commands makes slash commands of the bot's declaration: lines with the same
// first word are the subcommands of one.
func commands(declared []bot.Command) []command {
	var all []command
	for _, c := range declared {
		word, second, grouped := strings.Cut(c.Name, " ")
		if !grouped {
			all = append(all, command{Name: word, Description: clip(c.Help, maxHelp), Contexts: []int{inClubs}, Options: optionsOf(c)})
			continue
		}
		at := slices.IndexFunc(all, func(g command) bool { return g.Name == word })
		if at < 0 {
			at = len(all)
			all = append(all, command{Name: word, Contexts: []int{inClubs}})
		}
		group := &all[at]
		group.Options = append(group.Options, option{Type: discordgo.ApplicationCommandOptionSubCommand, Name: second, Description: clip(c.Help, maxHelp), Options: optionsOf(c)})
		words := make([]string, len(group.Options))
		for i, o := range group.Options {
			words[i] = o.Name
		}
		group.Description = clip(word+": "+strings.Join(words, ", "), maxHelp)
	}
	return all
}

// optionsOf lists a line's options as the platform has room for them.
func optionsOf(c bot.Command) []option {
	listed, more := listed(c)
	var all []option
	for _, o := range listed {
		all = append(all, optionOf(o))
	}
	if len(more) > 0 {
		o := optionOf(moreOf(more))
		o.Autocomplete = true
		all = append(all, o)
	}
	return all
}

func optionOf(o bot.Option) option {
	out := option{Type: discordgo.ApplicationCommandOptionString, Name: o.Name, Description: clip(o.Help, maxHelp), Required: demanded(o), Autocomplete: o.Source != bot.NoSource}
	switch o.Kind {
	case bot.Choice:
		if out.Autocomplete = out.Autocomplete || len(o.Choices) > maxChoices; !out.Autocomplete {
			for _, c := range o.Choices {
				out.Choices = append(out.Choices, choice{clip(o.Label(c), maxChoice), c})
			}
		}
	case bot.Whole:
		out.Type, out.Min, out.Max = discordgo.ApplicationCommandOptionInteger, &o.Min, &o.Max
	case bot.Upload:
		out.Type, out.Autocomplete = discordgo.ApplicationCommandOptionAttachment, false
	case bot.Place:
		out.Type, out.Autocomplete = discordgo.ApplicationCommandOptionChannel, false
	case bot.Badge:
		out.Type, out.Autocomplete = discordgo.ApplicationCommandOptionRole, false
	}
	return out
}

// Register tells the platform the commands, in the test club alone or
// everywhere, when what it has is not what is declared. It tries until that is
// done or ctx ends, and returns a *Fatal when it never will be.
func (b *Bot) Register(ctx context.Context) error {
	for wait := b.pace.register; ; wait = min(2*wait, time.Minute) {
		err := b.register(ctx)
		r, refused := rest.AsRefusal(err)
		switch {
		case err == nil:
			return nil
		case refused && r.Status == http.StatusUnauthorized:
			return &Fatal{Code: r.Status, Say: gateway.UnknownToken}
		case refused && r.Status < 500 && r.Status != http.StatusTooManyRequests:
			return &Fatal{Code: r.Status, Say: "The platform refused the commands: " + r.Message}
		}
		b.log.Warn("the commands are not registered yet", "err", err)
		if rest.Wait(ctx, wait) != nil {
			return ctx.Err()
		}
	}
}

func (b *Bot) register(ctx context.Context) error {
	var app struct{ ID string }
	if err := b.api.Do(ctx, rest.Call{Method: http.MethodGet, Path: "/applications/@me", Again: true}, &app); err != nil {
		return err
	}
	if b.config.TestClub != "" {
		return b.registerAt(ctx, "/applications/"+app.ID+"/guilds/"+b.config.TestClub+"/commands", inOneClub(commands(b.config.Lines.Commands())))
	}
	if err := b.registerAt(ctx, "/applications/"+app.ID+"/commands", commands(b.config.Lines.Commands())); err != nil {
		return err
	}
	return b.sweep(ctx, app.ID)
}

// inOneClub are commands as one workspace has them: where they can be typed
// needs no saying, and is not told back.
func inOneClub(list []command) []command {
	for i := range list {
		list[i].Contexts = nil
	}
	return list
}

// registerAt replaces the commands at a path, unless they are there already.
func (b *Bot) registerAt(ctx context.Context, path string, want []command) error {
	var there []command
	if err := b.api.Do(ctx, rest.Call{Method: http.MethodGet, Path: path, Again: true}, &there); err != nil {
		return err
	}
	if digest(there) == digest(want) {
		b.log.Info("the commands are as registered", "commands", len(want))
		return nil
	}
	b.log.Info("registering the commands", "commands", len(want), "test_club", b.config.TestClub)
	return b.api.Do(ctx, rest.Call{Method: http.MethodPut, Path: path, Body: want, Again: true}, nil)
}

// digest is a hash of commands, in whatever order the platform lists them.
func digest(list []command) string {
	list = slices.Clone(list)
	slices.SortFunc(list, func(a, b command) int { return strings.Compare(a.Name, b.Name) })
	text, err := json.Marshal(list)
	if err != nil {
		return err.Error() // plain values: cannot fail
	}
	return fmt.Sprintf("%x", sha256.Sum256(text))
}
