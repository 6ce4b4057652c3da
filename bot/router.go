package bot

import (
	"context"
	"crypto/rand"
	"fmt"
	"log/slog"
	"runtime/debug"
	"strings"
	"time"

	"detent/tuning"
)

// Router answers asks: it finds the command, checks who may use it, opens the
// book, decodes the arguments once and hands over to the command.
type Router struct {
	catalogue *Catalogue
	records   Records
	log       *slog.Logger
}

// NewRouter returns a router for the lines of a catalogue on the club records.
func NewRouter(catalogue *Catalogue, records Records, log *slog.Logger) *Router {
	return &Router{catalogue: catalogue, records: records, log: log}
}

// Answer answers one ask. It always returns a reply: what went wrong stands in
// its Problem.
func (r *Router) Answer(ctx context.Context, ask Ask) Reply {
	ask, err := r.resumed(ctx, ask)
	if err != nil {
		return r.trouble(ask, err)
	}
	return r.correctable(ctx, ask, r.answer(ctx, ask))
}

// answer is Answer for a line as it was typed.
func (r *Router) answer(ctx context.Context, ask Ask) Reply {
	ask.Line = ask.Line.askingForHelp()
	command, err := r.catalogue.Find(ask.Line)
	if err != nil {
		reply := r.trouble(ask, err)
		reply.Private = true
		return reply
	}
	reply, err := r.run(ctx, command, ask)
	if err != nil {
		reply = r.trouble(ask, err)
	}
	return reply
}

// run is the only way to a command. Whether the person may use it is settled
// before the command sees anything.
func (r *Router) run(ctx context.Context, command Command, ask Ask) (reply Reply, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panic: %v\n%s", p, debug.Stack())
		}
	}()
	if !ask.Who.MayBecome(command.Role) {
		return Reply{}, command.notFor()
	}
	// The reply is kept with whether it is private: the same id may come with
	// another line.
	answer := func(b Book) (Reply, error) {
		call, err := r.call(ctx, b, ask)
		if err != nil {
			return Reply{}, err
		}
		if !call.Ask.Who.Role.Allows(command.Role) {
			return Reply{}, command.notFor()
		}
		reply, err := command.answer(ctx, call, b)
		if err != nil {
			return reply, err
		}
		reply.Private = command.Private || reply.Problem != nil || command.Own && !call.Member.Shares()
		reply.View.Show = command.Own && reply.Private && reply.Problem == nil
		if command.Writes && (command.Own || command.Private) && reply.View.Care.Turns {
			reply.View.Care.Full, err = call.firstOfDay(ctx, b)
		}
		return reply, err
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

// firstOfDay tells whether no answer of the person's day in the club has named
// clicks to turn yet, and notes that one has now.
func (c Call) firstOfDay(ctx context.Context, b Book) (bool, error) {
	today := c.Now().In(c.Zone()).Format(time.DateOnly)
	if c.Member.Cautioned == today {
		return false, nil
	}
	return true, b.NoteCautions(ctx, c.Owner(), today)
}

// askingForHelp reads the words behind /help as the line to explain.
func (l Line) askingForHelp() Line {
	if len(l.Words) > 1 && l.Words[0] == "help" && len(l.Options) == 0 {
		return Line{Words: l.Words[:1], Options: []Given{{"command", strings.Join(l.Words[1:], " ")}}}
	}
	return l
}

// notFor refuses a command to somebody without its role.
func (c Command) notFor() *Problem {
	those := map[tuning.Role]string{tuning.CoachRole: "coaches", tuning.OrganiserRole: "organisers"}[c.Role]
	return Problemf(tuning.Forbidden, "/%s is for the club's %s: ask one of them.", c.Name, those)
}

// call reads the settings that hold for an ask, and settles what the person may
// do in the club.
func (r *Router) call(ctx context.Context, b Book, ask Ask) (Call, error) {
	club, err := b.Club(ctx)
	if err != nil {
		return Call{}, err
	}
	ask.Who.Role = ask.Who.RoleIn(club)
	member, err := b.Member(ctx, ask.Who.Person)
	call := Call{Ask: ask, Member: member, Club: club, Catalogue: r.catalogue}
	call.instead = func(ctx context.Context, line Line) (Reply, error) {
		command, err := r.catalogue.Find(line)
		if err != nil {
			return Reply{}, err
		}
		if !call.Ask.Who.Role.Allows(command.Role) {
			return Reply{}, command.notFor()
		}
		call.Ask.Line = line
		return command.answer(ctx, call, b)
	}
	return call, err
}

// trouble turns an error into words. What is ours to mend goes to the log with
// the reference that the person sees.
func (r *Router) trouble(ask Ask, err error) Reply {
	p, ok := ProblemOf(err)
	if ok && p.Kind != tuning.Internal {
		return Refuse(p)
	}
	ref := rand.Text()[:8]
	say := "Something went wrong on our side and nothing was changed: try again, and give your organiser the reference " + ref + " if it stays."
	if ok {
		say = p.Say + " (reference " + ref + ")"
	}
	r.log.Error("ask failed", "ref", ref, "command", strings.Join(ask.Line.Words, " "), "id", ask.ID, "err", err)
	return Apologise(say, ref)
}
