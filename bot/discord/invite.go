package discord

import (
	"context"
	"net/http"
	"net/url"
	"strconv"
	"time"

	"detent/bot/discord/gateway"
	"detent/bot/discord/rest"
)

// Invitation is what adds the bot to a workspace with the least that it needs
// there.
type Invitation struct {
	Application string // its number
	Threads     bool   // guides and reminders may go to a thread
}

// least are the permissions for everything that the bot does.
func (i Invitation) least() bits {
	if i.Threads {
		return needs.post | needs.postInThread | needs.files
	}
	return needs.post | needs.files
}

// Permissions are the permissions that it asks for, as the platform's number.
func (i Invitation) Permissions() uint64 { return uint64(i.least()) }

// Names are the same by the names that the platform shows.
func (i Invitation) Names() []string { return i.least().names() }

// Address is the page on which whoever may manage a workspace lets the bot in.
// Its form is from memory.
func (i Invitation) Address() string {
	return "https://discord.com/oauth2/authorize?client_id=" + url.QueryEscape(i.Application) +
		"&scope=bot%20applications.commands&permissions=" + strconv.FormatUint(i.Permissions(), 10)
}

// Known tells whether the application's number is there, and can be one.
func (i Invitation) Known() bool { return rest.IsApplication(i.Application) }

// Ask asks the platform for the number of the application that a token is of. It
// returns a *Fatal when the platform does not know the token.
func (i *Invitation) Ask(ctx context.Context, token string, transport http.RoundTripper) error {
	client := rest.NewClient(token, transport)
	client.Backoff = 20 * time.Millisecond // somebody waits
	var app struct{ ID string }
	err := client.Do(ctx, rest.Call{Method: http.MethodGet, Path: "/applications/@me", Again: true}, &app)
	if r, ok := rest.AsRefusal(err); ok && r.Status == http.StatusUnauthorized {
		return &Fatal{Code: r.Status, Say: gateway.UnknownToken}
	}
	i.Application = app.ID
	return err
}

// Read reads the application's number off a token where the platform cannot be
// asked, and tells whether the token has one.
func (i *Invitation) Read(token string) bool {
	i.Application = rest.ApplicationIn(token)
	return i.Known()
}
