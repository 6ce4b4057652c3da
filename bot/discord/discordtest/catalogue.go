package discordtest

import (
	"encoding/hex"
	"encoding/json"
	"reflect"
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
	scope := c.PathValue("guild")
	listed := []any{}
	for _, command := range slices.Backward(p.commands[scope]) { // the platform keeps no order
		listed = append(listed, p.listed(command, scope))
	}
	return ok(listed)
}

// listed is a command as the platform lists it: with additions of its own, and
// without contexts where it belongs to one guild.
func (p *Platform) listed(command Command, scope string) map[string]any {
	shown := map[string]any{
		"id": command.ID, "application_id": p.app, "version": command.ID, "type": command.Type, "nsfw": false,
		"name": command.Name, "name_localizations": nil, "description": command.Description, "description_localizations": nil,
		"default_member_permissions": command.DefaultMemberPermissions, "options": listedOptions(command.Options),
	}
	if scope != "" {
		shown["guild_id"] = scope
	} else {
		shown["dm_permission"], shown["contexts"], shown["integration_types"] = command.inDirect(), command.Contexts, []int{0}
	}
	return shown
}

// listedOptions are options as the platform lists them: what was not said is
// left out, and there are additions.
func listedOptions(options []Option) []any {
	listed := []any{}
	for _, o := range options {
		shown := map[string]any{
			"type": o.Type, "name": o.Name, "name_localizations": nil, "description": o.Description, "description_localizations": nil,
		}
		for key, value := range map[string]any{
			"required": o.Required, "autocomplete": o.Autocomplete, "min_value": o.MinValue, "max_value": o.MaxValue,
			"min_length": o.MinLength, "max_length": o.MaxLength,
		} {
			if v := reflect.ValueOf(value); !v.IsZero() {
				shown[key] = value
			}
		}
		if len(o.Choices) > 0 {
			shown["choices"] = listedChoices(o.Choices)
		}
		if len(o.Options) > 0 {
			shown["options"] = listedOptions(o.Options)
		}
		listed = append(listed, shown)
	}
	return listed
}

func listedChoices(choices []Choice) []any {
	listed := []any{}
	for _, c := range choices {
		listed = append(listed, map[string]any{"name": c.Name, "name_localizations": nil, "value": c.Value})
	}
	return listed
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
	told := p.gatewayJSON()
	if c.route == GetGateway {
		told = map[string]any{"url": told["url"]}
	}
	return ok(told)
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
	if c.PathValue("user") == p.bot {
		return ok(g.botMember())
	}
	for _, m := range g.members {
		if m.ID == c.PathValue("user") {
			return ok(m.json())
		}
	}
	return unknown(10007, "Member")
}
