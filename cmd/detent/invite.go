package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"net/http"
	"time"

	"detent/bot/discord"
	"detent/bot/say"
)

// inviteCmd prints the address that adds the bot to a workspace.
type inviteCmd struct {
	platform    `embed:""`
	Application string `arg:"" optional:"" help:"The application's number. Without it the platform is asked, with the token."`
	Threads     bool   `name:"threads" help:"Guides and reminders go to a thread."`
}

// asking is how long the platform has to tell the application's number.
const asking = 20 * time.Second

// Run prints the address, and what it asks for.
func (i *inviteCmd) Run(ctx context.Context, s *streams) error {
	way, err := i.way()
	if err != nil {
		return err
	}
	invitation := discord.Invitation{Application: i.Application, Threads: i.Threads}
	if err := i.find(ctx, &invitation, way, s); err != nil {
		return err
	}
	fmt.Fprintln(s.out, invitation.Address())
	fmt.Fprintf(s.out, "Open it as somebody who may manage the workspace. It asks for %s, and for nothing else.\n", say.AllOf(invitation.Names()))
	return nil
}

// find finds out the application's number, unless it was given.
func (i *inviteCmd) find(ctx context.Context, to *discord.Invitation, way http.RoundTripper, s *streams) error {
	switch {
	case to.Application != "" && !to.Known():
		return usageError{errors.New("an application's number has 17 digits or more: copy it from the platform's developer page")}
	case to.Application != "":
		return nil
	case i.Token == "":
		return usageError{errors.New("no application is known: set DETENT_DISCORD_TOKEN to the bot's token, or give the application's number: detent invite NUMBER")}
	}
	ctx, cancel := context.WithTimeout(ctx, asking)
	defer cancel()
	err := to.Ask(ctx, i.Token, cmp.Or(way, http.DefaultTransport))
	if _, refused := errors.AsType[*discord.Fatal](err); refused || err == nil {
		return err
	}
	if !to.Read(i.Token) {
		return fmt.Errorf("the platform does not tell the application's number (%w): copy it from the developer page and give it: detent invite NUMBER", err)
	}
	fmt.Fprintf(s.errs, "The platform does not answer (%v), so the application's number is read off the token. If the page does not know it, give the number from the developer page: detent invite NUMBER\n", err)
	return nil
}
