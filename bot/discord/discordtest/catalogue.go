package discordtest

import (
	"encoding/hex"
	"encoding/json"
	"slices"
)

// Commands lists what is registered for a guild, or globally when it is nil.
func (p *Platform) Commands(g *Guild) []Command {
	p.mu.Lock()
	defer p.mu.Unlock()
	scope := ""
	if g != nil {
		scope = g.ID
	}
	return slices.Clone(p.commands[scope])
}

func (p *Platform) getCommands(c *call) answer {
	if c.PathValue("app") != p.app {
		return unknown(10002, "Application")
	}
	return ok(orEmpty(p.commands[c.PathValue("guild")]))
}

// putCommands replaces all commands of a guild, or the global ones.
func (p *Platform) putCommands(c *call) answer {
	scope := c.PathValue("guild")
	switch {
	case c.PathValue("app") != p.app:
		return unknown(10002, "Application")
	case scope != "" && p.guildByID(scope) == nil:
		return unknown(10004, "Guild")
	}
	var commands []Command
	var raw []json.RawMessage
	var b broken
	if err := json.Unmarshal(c.body, &raw); err != nil {
		b.add(MalformedBody, "%v", err)
	} else if err := json.Unmarshal(c.body, &commands); err != nil {
		b.add(PayloadSchema, "%v", err)
	} else {
		b = checkCommands(commands)
	}
	if len(b) == 0 {
		for _, command := range raw {
			p.spec.check(&b, "ApplicationCommandUpdateRequest", command)
		}
	}
	if len(b) > 0 {
		return p.refuseAll(b, string(c.route))
	}
	for i := range commands {
		commands[i].Type = max(commands[i].Type, 1)
		commands[i].ID = p.commandID(scope, commands[i])
	}
	p.commands[scope] = commands
	return ok(orEmpty(commands))
}

// commandID keeps the id of a command that stays.
func (p *Platform) commandID(scope string, command Command) string {
	for _, known := range p.commands[scope] {
		if known.Name == command.Name && known.Type == command.Type {
			return known.ID
		}
	}
	return p.newID()
}

func (p *Platform) gateway(c *call) answer {
	return ok(map[string]any{
		"url": "ws" + p.server.URL[len("http"):] + "/gateway", "shards": 1,
		"session_start_limit": map[string]any{"total": 1000, "remaining": 999, "reset_after": 86400000, "max_concurrency": 1},
	})
}

func (p *Platform) botUser() map[string]any {
	return map[string]any{"id": p.bot, "username": "detent", "discriminator": "0001", "avatar": nil, "bot": true}
}

func (p *Platform) getMe(*call) answer { return ok(p.botUser()) }

func (p *Platform) getApplication(*call) answer {
	return ok(map[string]any{
		"id": p.app, "name": "detent", "description": "", "bot_public": false, "flags": 0, "bot": p.botUser(),
		"verify_key": hex.EncodeToString(p.PublicKey()),
	})
}

func (p *Platform) getMyGuilds(*call) answer {
	guilds := []any{}
	for _, g := range p.guilds {
		if !g.gone {
			guilds = append(guilds, map[string]any{
				"id": g.ID, "name": g.Name, "owner": false, "permissions": permissionText(permOrdinary), "features": []any{},
			})
		}
	}
	return ok(guilds)
}

func (p *Platform) guildByID(id string) *Guild {
	for _, g := range p.guilds {
		if g.ID == id && !g.gone {
			return g
		}
	}
	return nil
}

func (p *Platform) leaveGuild(c *call) answer {
	g := p.guildByID(c.PathValue("guild"))
	if g == nil {
		return unknown(10004, "Guild")
	}
	g.gone = true
	p.Gateway.dispatch(g.ID, "GUILD_DELETE", map[string]any{"id": g.ID})
	return done
}

func (p *Platform) getGuild(c *call) answer {
	if g := p.guildByID(c.PathValue("guild")); g != nil {
		return ok(g.json())
	}
	return unknown(10004, "Guild")
}

func (p *Platform) getRoles(c *call) answer {
	if g := p.guildByID(c.PathValue("guild")); g != nil {
		return ok(g.rolesJSON())
	}
	return unknown(10004, "Guild")
}

func (p *Platform) getMember(c *call) answer {
	g := p.guildByID(c.PathValue("guild"))
	if g == nil {
		return unknown(10004, "Guild")
	}
	for _, m := range g.members {
		if m.ID == c.PathValue("user") {
			return ok(m.json())
		}
	}
	return unknown(10007, "Member")
}
