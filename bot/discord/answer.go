package discord

import (
	"context"
	"fmt"
	"log/slog"
	"runtime/debug"
	"time"

	"github.com/bwmarrin/discordgo"

	"detent/bot"
	"detent/bot/discord/rest"
	"detent/tuning"
)

// response is a first answer.
type response struct {
	Type int `json:"type"`
	Data any `json:"data,omitempty"`

	files []rest.File
}

// The kinds of first answer.
const (
	pongAnswer     = 1
	messageAnswer  = 4
	deferredAnswer = 5
	choicesAnswer  = 8
	formAnswer     = 9
)

// announced tells the platform that an answer will follow, and who will see it.
type announced struct {
	Flags int `json:"flags"`
}

// first gives a first answer: by a callback, or as the answer to the post that
// brought the interaction.
type first func(context.Context, response) error

// take accepts an interaction, whichever way it came, and answers it once,
// whatever happens. It returns false for one that was delivered before.
func (b *Bot) take(i *discordgo.Interaction, answer first) (fresh bool) {
	if !b.seen.first(i.ID, b.config.Now()) {
		b.metrics.count("unknown", "doubled")
		return false
	}
	born := time.Now()
	q, err := read(i)
	t := &turn{b: b, request: q, born: born, first: answer}
	if !b.work.run(func() { t.run(err) }) {
		go t.refuse("I am too busy or about to restart: try again in a minute. Nothing was changed.", "busy")
	}
	return true
}

// turn is one interaction being answered.
type turn struct {
	request
	b     *Bot
	born  time.Time
	first first

	unsure bool // the platform did not say whether it has the first answer
}

// run answers, and answers with an apology when something breaks.
func (t *turn) run(unread error) {
	ctx, cancel := context.WithTimeout(context.Background(), t.b.pace.answer)
	defer cancel()
	defer func() {
		if p := recover(); p != nil {
			t.refuse(t.fault("answering broke", p).Title, string(tuning.Internal))
		}
	}()
	switch {
	case t.kind == discordgo.InteractionApplicationCommandAutocomplete && unread == nil:
		t.suggest(ctx)
	case unread != nil:
		t.log().Warn("unread interaction", "kind", int(t.kind), "err", unread)
		t.refuse("I could not read that: type the command instead, /help lists them.", "unread")
	case t.kind == discordgo.InteractionMessageComponent && t.custom == showToAll.Ask:
		t.showChannel(ctx)
	case t.kind == discordgo.InteractionMessageComponent:
		if f, ok := t.openForm(ctx); ok {
			t.give(ctx, response{Type: formAnswer, Data: f}, "form")
			return
		}
		t.converse(ctx)
	default:
		t.converse(ctx)
	}
}

// converse answers with a message: at once when it is ready, and otherwise
// with the news that it will come. Who may see it is settled by then.
func (t *turn) converse(ctx context.Context) {
	ready := make(chan bot.Reply, 1)
	go func() { ready <- t.reply(ctx) }()
	late := time.NewTimer(t.b.pace.deferral)
	defer late.Stop()
	select {
	case r := <-ready:
		t.show(ctx, r)
		return
	case <-late.C:
	}
	command, known := t.b.config.Lines.Lookup(t.line)
	hidden := command.Private || !known || command.Own && !t.shares(ctx)
	if !t.give(ctx, response{Type: deferredAnswer, Data: announced{flags(hidden)}}, "") && !t.unsure {
		return
	}
	select {
	case r := <-ready:
		t.follow(r, hidden)
	case <-ctx.Done():
		t.follow(tooLong, hidden)
	}
}

// tooLong answers a command that did not finish in time.
var tooLong = bot.Refuse(bot.Problemf(tuning.Internal,
	"That took too long and I stopped waiting: look with /log whether it was noted before you send it again."))

func flags(hidden bool) int {
	if hidden {
		return private
	}
	return 0
}

// reply asks the bot. What breaks on the way is a reply too.
func (t *turn) reply(ctx context.Context) (r bot.Reply) {
	defer func() {
		if p := recover(); p != nil {
			r = t.fault("asking broke", p)
		}
	}()
	ask, err := t.b.ask(ctx, t.request)
	switch {
	case tuning.KindOf(err) == tuning.Internal:
		return t.fault("an ask could not be prepared", err)
	case err != nil:
		return bot.Refuse(err)
	}
	return t.b.bot.Answer(ctx, ask)
}

// fault logs what is ours to mend and is what the person reads of it: both have
// the same reference.
func (t *turn) fault(what string, cause any) bot.Reply {
	t.log().Error(what, "ref", t.id, "err", fmt.Sprint(cause), "stack", string(debug.Stack()))
	say := fmt.Sprintf("Something went wrong on our side: try again, and give your organiser the reference %s if it stays.", t.id)
	return bot.Apologise(say, t.id)
}

// show gives a reply as the first answer.
func (t *turn) show(ctx context.Context, r bot.Reply) {
	m := compose(t.offerShowing(r, r.Private), "")
	m.Flags = flags(r.Private)
	if !t.give(ctx, response{Type: messageAnswer, Data: m, files: m.files}, outcome(r)) {
		return
	}
	t.settled(r)
}

// give gives the first answer and tells whether the platform has it. Where the
// platform refuses a message, its bare words are sent instead.
func (t *turn) give(ctx context.Context, r response, outcome string) bool {
	ctx, cancel := context.WithDeadline(ctx, t.born.Add(t.b.pace.first))
	defer cancel()
	err := t.first(ctx, r)
	if m, ok := r.Data.(message); ok && refused(err) {
		t.log().Error("the platform refused an answer", "err", err)
		err = t.first(ctx, response{Type: r.Type, Data: m.brief()})
	}
	switch {
	case rest.IsRefusal(err, rest.CodeAnswered): // by another process, or by an attempt whose answer was lost
		err = nil
	case err != nil:
		outcome = "unanswered"
	}
	if err != nil {
		t.unsure = rest.Unsure(err)
		t.b.metrics.failed("first")
		t.log().Error("no first answer", "err", err, "after_ms", time.Since(t.born).Milliseconds())
	} else {
		t.b.metrics.waited(time.Since(t.born))
	}
	if outcome != "" {
		t.b.metrics.count(t.command(), outcome)
	}
	return err == nil
}

// refused tells whether the platform will not have an answer as it is.
func refused(err error) bool {
	r, ok := rest.AsRefusal(err)
	return ok && r.Status == 400 && r.Code != rest.CodeAnswered
}

// refuse answers with a sentence for the person alone.
func (t *turn) refuse(say, outcome string) {
	ctx, cancel := context.WithTimeout(context.Background(), t.b.pace.first)
	defer cancel()
	if t.kind == discordgo.InteractionApplicationCommandAutocomplete {
		t.give(ctx, noChoices, outcome)
		return
	}
	m := compose(bot.Reply{Title: say}, "")
	m.Flags = private
	t.give(ctx, response{Type: messageAnswer, Data: m}, outcome)
}

func (t *turn) command() string {
	if c, ok := t.b.config.Lines.Lookup(t.line); ok {
		return c.Name
	}
	return "unknown"
}

// outcome is how a reply is counted.
func outcome(r bot.Reply) string {
	if r.Problem != nil {
		return string(r.Problem.Kind)
	}
	return "answered"
}

// settled notes an answer that the person has, with the reference that they
// saw. Neither tokens nor what was said are logged.
func (t *turn) settled(r bot.Reply) {
	ref := ""
	if r.Problem != nil {
		ref = r.Problem.Ref
	}
	t.log().Info("answered", "outcome", outcome(r), "ref", ref, "ms", time.Since(t.born).Milliseconds())
}

func (t *turn) log() *slog.Logger {
	return t.b.log.With("id", t.id, "command", t.command())
}
