package discordtest

import "slices"

// Person is somebody with an account.
type Person struct {
	ID, Name string

	p       *Platform
	dm      *Channel
	closed  int // the error that direct messages meet, 0 when they are welcome
	refused bool
}

// Member is a person in a guild, at a channel there; or, without a guild, in
// the direct messages with the bot.
type Member struct {
	*Person
	Guild *Guild

	channel *Channel
	roles   []string
	locale  string
}

// MemberOption adjusts a member at joining.
type MemberOption func(*Member)

// Permissions adds to what a member may do, by a role of their own.
func Permissions(bits uint64) MemberOption {
	return func(m *Member) {
		own := m.Guild.role("only " + m.Name)
		m.Guild.grants[own] |= bits
		m.roles = append(m.roles, own)
	}
}

// Roles gives roles, by name.
func Roles(names ...string) MemberOption {
	return func(m *Member) {
		for _, name := range names {
			m.roles = append(m.roles, m.Guild.role(name))
		}
	}
}

// Locale sets the language of the person's client.
func Locale(locale string) MemberOption { return func(m *Member) { m.locale = locale } }

// Member finds or admits a member by name. A person of one name is the same in every guild.
func (g *Guild) Member(name string, options ...MemberOption) *Member {
	g.p.mu.Lock()
	defer g.p.mu.Unlock()
	at := slices.IndexFunc(g.members, func(m *Member) bool { return m.Name == name })
	if at < 0 {
		at = len(g.members)
		g.members = append(g.members, &Member{
			Person: g.p.person(name), Guild: g, channel: g.channels[0], locale: "en-GB",
		})
	}
	m := g.members[at]
	for _, option := range options {
		option(m)
	}
	return m
}

func (p *Platform) person(name string) *Person {
	for _, known := range p.people {
		if known.Name == name {
			return known
		}
	}
	who := &Person{ID: p.newID(), Name: name, p: p}
	who.dm = &Channel{ID: p.newID(), Name: "@" + name, p: p, person: who}
	p.people[who.ID] = who
	return who
}

// In is the member at another channel of the guild.
func (m *Member) In(channel string) *Member {
	there := *m
	there.channel = m.Guild.Channel(channel)
	return &there
}

// Directly is the person in the direct messages with the bot.
func (m *Member) Directly() *Member {
	there := *m
	there.Guild, there.channel = nil, m.dm
	return &there
}

// Inbox is where direct messages to the person stand.
func (w *Person) Inbox() *Channel { return w.dm }

// CloseDirect stops the person taking direct messages: they are refused with
// the code, 50007 or 50278. The bot may then not try again before the person
// has done something.
func (w *Person) CloseDirect(code int) {
	w.p.mu.Lock()
	defer w.p.mu.Unlock()
	w.closed = code
}

// OpenDirect lets direct messages in again.
func (w *Person) OpenDirect() { w.CloseDirect(0) }

func (w *Person) json() map[string]any {
	return map[string]any{
		"id": w.ID, "username": w.Name, "global_name": w.Name, "discriminator": "0", "avatar": nil, "bot": false, "public_flags": 0,
	}
}

func (m *Member) json() map[string]any {
	return map[string]any{
		"user": m.Person.json(), "nick": nil, "roles": orEmpty(m.roles),
		"joined_at": "2024-01-01T00:00:00Z", "deaf": false, "mute": false, "flags": 0, "pending": false,
	}
}
