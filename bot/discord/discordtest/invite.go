package discordtest

import (
	"net/url"
	"slices"
	"strconv"
	"strings"
)

// confine leaves the bot these permissions, and everybody else none.
func (g *Guild) confine(bits uint64) {
	g.everybody, g.grants[g.role(botRole)] = 0, bits
}

// Invite opens an address as somebody does who manages a guild, and takes the
// bot into it with what the address asks for. The form of the address is from
// memory.
func (p *Platform) Invite(guild, address string) *Guild {
	p.tb.Helper()
	u, err := url.Parse(address)
	if err != nil || u.Scheme != "https" || u.Host != "discord.com" || u.Path != "/oauth2/authorize" {
		p.tb.Fatalf("%s is not where the platform asks whom to let in", address)
	}
	asked := u.Query()
	scopes := strings.Fields(asked.Get("scope"))
	bits, err := strconv.ParseUint(asked.Get("permissions"), 10, 64)
	switch {
	case asked.Get("client_id") != p.app:
		p.tb.Fatalf("%s names no application that is known", address)
	case !slices.Contains(scopes, "bot") || !slices.Contains(scopes, "applications.commands"):
		p.tb.Fatalf("%s asks for the scopes %q: the bot or its commands would not be there", address, scopes)
	case err != nil:
		p.tb.Fatalf("%s asks for permissions that are no number", address)
	}
	g := p.Guild(guild)
	p.mu.Lock()
	defer p.mu.Unlock()
	g.confine(bits)
	return g
}
