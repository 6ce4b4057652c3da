package bot

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"log/slog"
	"runtime/debug"
	"slices"
	"strings"

	"detent/bot/say"
	"detent/tuning"
)

// Router answers asks: it finds the command, checks who may use it, opens the
// book, decodes the arguments once and hands over to the command.
type Router struct {
	records  Records
	log      *slog.Logger
	commands []Command
}

// NewRouter returns a router on the club records.
func NewRouter(records Records, log *slog.Logger) *Router {
	return &Router{records: records, log: log, commands: Commands()}
}

// Answer answers one ask. It always returns a reply: what went wrong stands in
// its Problem.
func (r *Router) Answer(ctx context.Context, ask Ask) Reply {
	ask.Line = askForHelp(ask.Line)
	command, err := find(r.commands, ask.Line.Words)
	if err != nil {
		return r.trouble(ask, err)
	}
	reply, err := r.run(ctx, command, ask)
	if err != nil {
		reply = r.trouble(ask, err)
	}
	reply.Private = command.Private || reply.Problem != nil
	return reply
}

// run is the one way to a command: who may is settled here, before the
// command sees anything.
func (r *Router) run(ctx context.Context, command Command, ask Ask) (reply Reply, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panic: %v\n%s", p, debug.Stack())
		}
	}()
	if !ask.Who.Role.Allows(command.Role) {
		return Reply{}, tuning.Problemf(tuning.Forbidden, "/%s is for the club's %s: ask one of them.", command.Name, plural[command.Role])
	}
	answer := func(b Book) (Reply, error) {
		call, err := prepare(ctx, b, command, ask)
		if err != nil {
			return Reply{}, err
		}
		return command.Answer(ctx, call)
	}
	if command.Writes {
		return r.records.Once(ctx, ask.Who, ask.At, ask.ID, answer)
	}
	err = r.records.Read(ctx, ask.Who, ask.At, func(b Book) error {
		reply, err = answer(b)
		return err
	})
	return reply, err
}

// askForHelp reads the words behind /help as the line to explain.
func askForHelp(line Line) Line {
	if len(line.Words) > 1 && line.Words[0] == "help" && len(line.Options) == 0 {
		return Line{Words: line.Words[:1], Options: []Given{{"command", strings.Join(line.Words[1:], " ")}}}
	}
	return line
}

// plural names those who have a role.
var plural = map[tuning.Role]string{tuning.CoachRole: "coaches", tuning.OrganiserRole: "organisers"}

// prepare reads the settings that decoding needs, and decodes.
func prepare(ctx context.Context, b Book, command Command, ask Ask) (Call, error) {
	club, err := b.Club(ctx)
	if err != nil {
		return Call{}, err
	}
	member, err := b.Member(ctx, ask.Who.Person)
	if err != nil {
		return Call{}, err
	}
	args, err := decode(command, ask, imperial(member, club))
	if err == nil {
		err = byName(ctx, b, ask.Who.Person, args)
	}
	return Call{Ask: ask, Args: args, Book: b, Member: member, Club: club}, err
}

// trouble is the one place that turns an error into words. What is ours to
// mend goes to the log with the reference that the person sees.
func (r *Router) trouble(ask Ask, err error) Reply {
	if p, ok := errors.AsType[*tuning.Problem](err); ok && p.Kind != tuning.Internal {
		return Reply{Title: p.Say, Problem: &Trouble{Kind: p.Kind, Say: p.Say}}
	}
	ref := rand.Text()[:8]
	say := "Something went wrong on our side and nothing was changed: try again, and give your organiser the reference " + ref + " if it stays."
	if p, ok := errors.AsType[*tuning.Problem](err); ok {
		say = p.Say + " (reference " + ref + ")"
	}
	r.log.Error("ask failed", "ref", ref, "command", strings.Join(ask.Line.Words, " "), "id", ask.ID, "err", err)
	return Reply{Title: say, Problem: &Trouble{Kind: tuning.Internal, Say: say, Ref: ref}}
}

// find finds the command that words name.
func find(commands []Command, words []string) (Command, error) {
	name := strings.Join(words, " ")
	i := slices.IndexFunc(commands, func(c Command) bool { return c.Name == name })
	if i >= 0 {
		return commands[i], nil
	}
	var names, under []string
	for _, c := range commands {
		names = append(names, c.Name)
		if group, word, ok := strings.Cut(c.Name, " "); ok && len(words) > 0 && group == words[0] {
			under = append(under, word)
		}
	}
	switch {
	case name == "":
		return Command{}, tuning.Problemf(tuning.Invalid, "Say what you need after the slash; /help lists the commands.")
	case len(under) > 0 && len(words) == 1:
		return Command{}, tuning.Problemf(tuning.Invalid, "/%s needs a second word: %s.", name, say.OneOf(under))
	case len(under) > 0:
		return Command{}, tuning.Problemf(tuning.Invalid, "/%s cannot %s%s; it can %s.", words[0], strings.Join(words[1:], " "), didYouMean(words[1], under), say.OneOf(under))
	}
	return Command{}, tuning.Problemf(tuning.Invalid, "I do not know /%s%s; /help lists the commands.", name, didYouMean(name, names))
}

// Refuse is the reply to what could not even be read as a line.
func Refuse(err error) Reply {
	say := "I could not read that: start with a slash, for example /help."
	kind := tuning.Invalid
	if p, ok := errors.AsType[*tuning.Problem](err); ok {
		say, kind = p.Say, p.Kind
	}
	return Reply{Title: say, Private: true, Problem: &Trouble{Kind: kind, Say: say}}
}

// TakesFile tells whether an option of the line's command is a file.
func TakesFile(line Line, option string) bool {
	command, err := find(Commands(), line.Words)
	if err != nil {
		return false
	}
	o, ok := command.option(option)
	return ok && o.Kind == Upload
}
