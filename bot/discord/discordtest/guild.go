package discordtest

import (
	"strconv"
)

// The permissions that matter here, as bits.
const (
	PermAdministrator uint64 = 1 << 3
	PermManageGuild   uint64 = 1 << 5
	PermView          uint64 = 1 << 10
	PermSend          uint64 = 1 << 11
	PermEmbed         uint64 = 1 << 14
	PermAttach        uint64 = 1 << 15
	PermCommands      uint64 = 1 << 31
	PermInThreads     uint64 = 1 << 38
)

// permOrdinary is what a member may do without any role.
const permOrdinary = PermView | PermSend | PermEmbed | PermAttach | PermCommands | PermInThreads

// Guild is one club's workspace, with the bot in it.
type Guild struct {
	ID, Name string

	p         *Platform
	channels  []*Channel
	members   []*Member
	roles     map[string]string // id by name
	grants    map[string]uint64 // what a role permits, by its id
	everybody uint64            // what everybody may, the bot too
	owner     string
	gone      bool // the bot was removed
	outage    bool
}

// Channel is a place for messages: of a guild, or direct to one person.
type Channel struct {
	ID, Name string

	p        *Platform
	guild    *Guild
	person   *Person
	parent   *Channel // what a thread hangs on
	denied   uint64   // what the bot may not do here
	messages []*message
}

// Guild finds or founds a guild by name; it has a channel "general".
func (p *Platform) Guild(name string) *Guild {
	p.mu.Lock()
	defer p.mu.Unlock()
	if g := p.guilds[name]; g != nil {
		return g
	}
	g := &Guild{ID: p.newID(), Name: name, p: p, roles: map[string]string{}, grants: map[string]uint64{}, everybody: permOrdinary, owner: "1"}
	if p.invited != nil {
		g.confine(*p.invited)
	}
	p.guilds[name] = g
	g.channel("general")
	p.Gateway.dispatch(g.ID, "GUILD_CREATE", g.json())
	return g
}

// Channel finds or makes a channel of the guild by name.
func (g *Guild) Channel(name string) *Channel {
	g.p.mu.Lock()
	defer g.p.mu.Unlock()
	return g.channel(name)
}

func (g *Guild) channel(name string) *Channel {
	for _, c := range g.channels {
		if c.Name == name {
			return c
		}
	}
	c := &Channel{ID: g.p.newID(), Name: name, p: g.p, guild: g}
	g.channels = append(g.channels, c)
	g.p.channels[c.ID] = c
	return c
}

// Thread makes a thread of the channel.
func (c *Channel) Thread(name string) *Channel {
	thread := c.guild.Channel(name)
	return thread.set(func() { thread.parent = c })
}

// Role gives the id of a role, made when it is new.
func (g *Guild) Role(name string) string {
	g.p.mu.Lock()
	defer g.p.mu.Unlock()
	return g.role(name)
}

func (g *Guild) role(name string) string {
	if g.roles[name] == "" {
		g.roles[name] = g.p.newID()
	}
	return g.roles[name]
}

// Remove throws the bot out: GUILD_DELETE without unavailable, now and, as the
// platform does, again at every start.
func (g *Guild) Remove() {
	g.p.mu.Lock()
	defer g.p.mu.Unlock()
	g.gone = true
	g.p.Gateway.dispatch(g.ID, "GUILD_DELETE", map[string]any{"id": g.ID})
}

// Outage makes the guild unavailable, which is no removal.
func (g *Guild) Outage() {
	g.p.mu.Lock()
	defer g.p.mu.Unlock()
	g.outage = true
	g.p.Gateway.dispatch(g.ID, "GUILD_DELETE", map[string]any{"id": g.ID, "unavailable": true})
}

// Return ends an outage, or takes the bot in again.
func (g *Guild) Return() {
	g.p.mu.Lock()
	defer g.p.mu.Unlock()
	g.gone, g.outage = false, false
	g.p.Gateway.dispatch(g.ID, "GUILD_CREATE", g.json())
}

// Hide takes the channel out of the bot's sight: posting there is refused with 50001.
func (c *Channel) Hide() *Channel { return c.Deny(PermView) }

// ReadOnly forbids the bot to post in the channel: refused with 50013.
func (c *Channel) ReadOnly() *Channel { return c.Deny(PermSend) }

// Deny takes permissions away from the bot in the channel.
func (c *Channel) Deny(bits uint64) *Channel { return c.set(func() { c.denied |= bits }) }

// Open gives the bot its access back.
func (c *Channel) Open() *Channel { return c.set(func() { c.denied = 0 }) }

func (c *Channel) set(change func()) *Channel {
	c.p.mu.Lock()
	defer c.p.mu.Unlock()
	change()
	return c
}

// Messages lists what stands in the channel, private replies apart.
func (c *Channel) Messages() []Message {
	c.p.mu.Lock()
	defer c.p.mu.Unlock()
	return c.public()
}

// Await waits until n messages stand in the channel, private replies apart, and lists them.
func (c *Channel) Await(n int) []Message {
	c.p.tb.Helper()
	c.p.await(strconv.Itoa(n)+" messages in "+c.Name, func() bool { return len(c.public()) >= n })
	return c.Messages()
}

func (c *Channel) public() []Message {
	var found []Message
	for _, m := range c.messages {
		if m.flags&flagPrivate == 0 && !m.deleted {
			found = append(found, c.p.snapshot(m))
		}
	}
	return found
}

func (c *Channel) json() map[string]any {
	if c.person != nil {
		return map[string]any{"id": c.ID, "type": 1, "recipients": []any{c.person.json()}}
	}
	if c.parent != nil {
		return map[string]any{"id": c.ID, "type": 11, "name": c.Name, "guild_id": c.guild.ID, "parent_id": c.parent.ID}
	}
	return map[string]any{"id": c.ID, "type": 0, "name": c.Name, "guild_id": c.guild.ID, "position": 0, "permission_overwrites": c.overwrites()}
}

func (g *Guild) json() map[string]any {
	channels := []any{}
	for _, c := range g.channels {
		channels = append(channels, c.json())
	}
	return map[string]any{
		"id": g.ID, "name": g.Name, "owner_id": g.owner, "channels": channels, "roles": g.rolesJSON(),
		"emojis": []any{}, "features": []any{}, "members": []any{}, "threads": []any{}, "voice_states": []any{}, "presences": []any{},
		"unavailable": false, "member_count": len(g.members), "preferred_locale": "en-US", "joined_at": "2024-01-01T00:00:00Z",
	}
}

func (g *Guild) rolesJSON() []any {
	roles := []any{map[string]any{"id": g.ID, "name": "@everyone", "permissions": permissionText(g.everybody)}}
	for name, id := range g.roles {
		roles = append(roles, map[string]any{"id": id, "name": name, "permissions": permissionText(g.grants[id])})
	}
	return roles
}

func permissionText(bits uint64) string { return strconv.FormatUint(bits, 10) }
