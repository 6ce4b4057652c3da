package discordtest

// botRole is the role that a guild gives the bot when it takes it in.
const botRole = "detent"

// Grant adds to what a role permits.
func (g *Guild) Grant(role string, bits uint64) {
	g.p.mu.Lock()
	defer g.p.mu.Unlock()
	g.grants[g.role(role)] |= bits
}

// Own makes a member the guild's owner, who may do everything.
func (g *Guild) Own(m *Member) {
	g.p.mu.Lock()
	defer g.p.mu.Unlock()
	g.owner = m.ID
}

// Leave takes the member out of the guild. The person stays, with what stands
// in their inbox.
func (m *Member) Leave() {
	m.p.mu.Lock()
	defer m.p.mu.Unlock()
	g := m.Guild
	for at, known := range g.members {
		if known.ID == m.ID {
			g.members = append(g.members[:at:at], g.members[at+1:]...)
			return
		}
	}
}

// permissions are what a member may do in the guild: what everybody may and
// what each of their roles adds, and everything for the owner.
func (m *Member) permissions() uint64 {
	bits := m.Guild.everybody
	for _, role := range m.roles {
		bits |= m.Guild.grants[role]
	}
	if m.Guild.owner == m.ID {
		bits |= PermAdministrator
	}
	return bits
}

func (m *Member) may(bits uint64) bool {
	had := m.permissions()
	return had&PermAdministrator != 0 || had&bits == bits
}

// botPermissions are what the bot may do in the channel, which every
// interaction there tells.
func (c *Channel) botPermissions() uint64 {
	if c.parent != nil {
		return c.parent.botPermissions()
	}
	if c.guild == nil {
		return permOrdinary
	}
	return (c.guild.everybody | c.guild.grants[c.guild.role(botRole)]) &^ c.denied
}

// botMay tells whether the bot has a permission in the channel.
func (c *Channel) botMay(bit uint64) bool { return c.botPermissions()&bit != 0 }

// botMayWrite tells whether the bot may write there.
func (c *Channel) botMayWrite() bool {
	if c.parent != nil {
		return c.botMay(PermInThreads)
	}
	return c.botMay(PermSend)
}

// overwrites are the channel's exceptions from the guild's permissions.
func (c *Channel) overwrites() []any {
	if c.denied == 0 {
		return []any{}
	}
	return []any{map[string]any{"id": c.guild.role(botRole), "type": 0, "allow": "0", "deny": permissionText(c.denied)}}
}

// botMember is the bot as a member of the guild.
func (g *Guild) botMember() map[string]any {
	return map[string]any{
		"user": g.p.botUser(), "nick": nil, "roles": []string{g.role(botRole)},
		"joined_at": "2024-01-01T00:00:00Z", "deaf": false, "mute": false, "flags": 0, "pending": false,
	}
}
