package discord

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"strings"

	"detent/bot"
	"detent/bot/discord/rest"
)

// ErrNoDirect is a person who takes no direct messages, or none from this bot.
// Nothing more may be tried until they do something themselves.
var ErrNoDirect = errors.New("the person takes no direct messages")

// ErrLater says that the platform will take the message later: direct messages
// are being opened too fast.
var ErrLater = errors.New("direct messages are opened too fast: try again in some minutes")

// ErrNoAccess is a channel that is gone, or that the bot may not write in.
var ErrNoAccess = errors.New("the bot may not write in that channel")

// maxNonce is the longest name of a message.
const maxNonce = 25

// Direct sends a reply to one person of a club. The nonce names the message:
// sent again under the same name within some minutes it arrives once. It
// returns ErrNoDirect, ErrLater, or what went wrong on the way.
func (b *Bot) Direct(ctx context.Context, club, person string, r bot.Reply, nonce string) error {
	var channel struct{ ID string }
	open := rest.Call{Method: http.MethodPost, Path: "/users/@me/channels", Body: map[string]string{"recipient_id": person}, Again: true}
	if err := b.api.Do(ctx, open, &channel); err != nil {
		return b.meaning("direct", err)
	}
	return b.send(ctx, "direct", channel.ID, compose(r, guildOf(club)), nonce)
}

// Post sends a reply to a channel and calls the people that are meant by it,
// and nobody else. What the bot lacks in the channel is looked for first. The
// nonce is as for Direct. It returns a *NoAccess, or what went wrong on the way.
func (b *Bot) Post(ctx context.Context, channel string, r bot.Reply, nonce string, meant ...string) error {
	m := compose(r, "")
	for i, person := range meant {
		call := "<@" + person + "> "
		if i == maxMeant || length(m.Content)+length(call) > maxContent {
			break
		}
		m.Content = call + m.Content
		m.Mentions.Users = append(m.Mentions.Users, person)
	}
	id := strings.Trim(channel, "<#>")
	if err := b.mayPost(ctx, id, m); err != nil {
		b.metrics.failed("post")
		return err
	}
	err := b.send(ctx, "post", id, m, nonce)
	if errors.Is(err, ErrNoAccess) {
		return &NoAccess{Channel: id, Err: err}
	}
	return err
}

// maxMeant is how many people one message may call.
const maxMeant = 100

func (b *Bot) send(ctx context.Context, what, channel string, m message, nonce string) error {
	if nonce == "" || length(nonce) > maxNonce {
		return fmt.Errorf("a message needs a name of 1 to %d characters, not %q", maxNonce, nonce)
	}
	m.Nonce, m.Once = nonce, true
	path := "/channels/" + channel + "/messages"
	return b.meaning(what, b.api.Do(ctx, rest.Call{Method: http.MethodPost, Path: path, Body: m, Files: m.files, Again: true}, nil))
}

// meaning turns a refusal into what the caller can do about it.
func (b *Bot) meaning(what string, err error) error {
	if err == nil {
		return nil
	}
	b.metrics.failed(what)
	r, ok := rest.AsRefusal(err)
	switch {
	case !ok:
		return err
	case r.Code == rest.CodeNoDirect || r.Code == rest.CodeNoDirectHere:
		return fmt.Errorf("%w: %w", ErrNoDirect, err)
	case r.Code == rest.CodeTooFast:
		return fmt.Errorf("%w: %w", ErrLater, err)
	case r.Status == http.StatusForbidden || r.Status == http.StatusNotFound:
		return fmt.Errorf("%w: %w", ErrNoAccess, err)
	}
	return err
}

// guildOf is the workspace that a club's key names.
func guildOf(club string) string { return strings.TrimPrefix(club, clubKey("")) }
