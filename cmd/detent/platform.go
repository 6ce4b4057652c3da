package main

import (
	"errors"
	"net"
	"net/http"
	"net/url"

	"detent/bot/discord"
)

// platform is how the messaging platform is reached.
type platform struct {
	Token string `name:"token" env:"DETENT_DISCORD_TOKEN" placeholder:"SECRET" help:"The bot's token. A secret: give it in the environment."`
	API   string `name:"api" env:"DETENT_DISCORD_API" placeholder:"URL" help:"Another address for the platform, for rehearsal against a stand-in on this machine."`
}

var errNoToken = usageError{errors.New("no token is known: set DETENT_DISCORD_TOKEN to the bot's token")}

// way is the way to the platform: nil for the ordinary one. A stand-in must be
// on this machine, for the token goes there.
func (p *platform) way() (http.RoundTripper, error) {
	if p.API == "" {
		return nil, nil
	}
	u, err := url.Parse(p.API)
	if err != nil || u.Scheme == "" || u.Host == "" {
		return nil, usageError{errors.New("DETENT_DISCORD_API is no address: it looks like http://127.0.0.1:8651")}
	}
	if ip := net.ParseIP(u.Hostname()); u.Hostname() != "localhost" && (ip == nil || !ip.IsLoopback()) {
		return nil, usageError{errors.New("DETENT_DISCORD_API is for rehearsal on this machine alone: give it a loopback address, or leave it out")}
	}
	if u.Scheme != "http" {
		return nil, usageError{errors.New("DETENT_DISCORD_API is spoken to without encryption: begin the address with http://")}
	}
	return discord.Rehearse(u), nil
}
