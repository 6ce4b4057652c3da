package discord

import (
	"context"
	"net/http"

	"detent/bot"
	"detent/bot/discord/rest"
)

// follow delivers a reply that was announced. Hidden tells that it was
// announced to the person alone.
func (t *turn) follow(r bot.Reply, hidden bool) {
	ctx, cancel := context.WithDeadline(context.Background(), t.born.Add(tokenLife))
	defer cancel()
	deliver := t.replaceAnnouncement
	if r.Private && !hidden {
		deliver = t.answerInPrivate
	}
	if err := deliver(ctx, compose(t.offerShowing(r, hidden || r.Private), "")); err != nil {
		t.b.metrics.failed("follow")
		t.log().Error("the answer did not arrive", "err", err)
	}
	t.b.metrics.count(t.command(), outcome(r))
	t.settled(r)
}

// replaceAnnouncement puts a message in the place of the announcement, which
// settled who sees it. Where the answer has overtaken an announcement that was not
// confirmed, it waits for it.
func (t *turn) replaceAnnouncement(ctx context.Context, m message) error {
	waiting, cancel := context.WithTimeout(ctx, t.b.pace.arriving)
	defer cancel()
	for pause := t.b.pace.retry; ; pause *= 2 {
		err := t.deliver(ctx, http.MethodPatch, t.webhook()+"/messages/@original", m)
		absent := rest.IsRefusal(err, rest.CodeNoMessage) || rest.IsRefusal(err, rest.CodeNoAnswer)
		if !absent || !t.unsure || rest.Wait(waiting, pause) != nil {
			return err
		}
	}
}

// answerInPrivate takes back an announcement that everybody saw, and then
// answers the person alone. The order matters: the first message after an
// announcement takes its place, and everybody would see it.
func (t *turn) answerInPrivate(ctx context.Context, m message) error {
	err := t.b.api.Do(ctx, rest.Call{Method: http.MethodDelete, Path: t.webhook() + "/messages/@original", Again: true}, nil)
	if err != nil && !rest.IsRefusal(err, rest.CodeNoMessage) { // an attempt whose answer was lost has deleted it
		return err
	}
	m.Flags = private
	return t.deliver(ctx, http.MethodPost, t.webhook(), m)
}

// deliver sends a message. Where the platform refuses it, its bare words are
// sent instead.
func (t *turn) deliver(ctx context.Context, method, path string, m message) error {
	err := t.b.api.Do(ctx, rest.Call{Method: method, Path: path, Body: m, Files: m.files, Again: true}, nil)
	if refused(err) {
		err = t.b.api.Do(ctx, rest.Call{Method: method, Path: path, Body: m.brief(), Again: true}, nil)
	}
	return err
}

// webhook is the address of what follows a first answer.
func (t *turn) webhook() string { return "/webhooks/" + t.app + "/" + t.token }
