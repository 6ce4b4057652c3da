package discord

import (
	"context"
	"net/http"
	"slices"
	"strconv"

	"github.com/bwmarrin/discordgo"

	"detent/bot/discord/rest"
)

// guild is what the bot reads of a workspace: who owns it and what its roles
// permit.
type guild struct {
	Owner string `json:"owner_id"`
	Roles []struct {
		ID          string `json:"id"`
		Permissions bits   `json:"permissions"`
	} `json:"roles"`
}

// bits are permissions, which the platform writes as a number in a text.
type bits int64

// UnmarshalJSON reads the number in the text.
func (b *bits) UnmarshalJSON(data []byte) error {
	text, err := strconv.Unquote(string(data))
	if err != nil {
		return err
	}
	n, err := strconv.ParseInt(text, 10, 64)
	*b = bits(n)
	return err
}

// allPermissions is what an administrator and the owner may do.
const allPermissions = bits(-1)

// member is what the bot reads of a person in a workspace.
type member struct {
	Nick  string   `json:"nick"`
	Roles []string `json:"roles"`
}

// permissions are what a member may do in the workspace, before its channels
// make their exceptions: what everybody may, whose role has the workspace's own
// number, and what the member's roles add.
func (g guild) permissions(id, person string, m member) bits {
	if person == g.Owner {
		return allPermissions
	}
	var all bits
	for _, role := range g.Roles {
		if role.ID == id || slices.Contains(m.Roles, role.ID) {
			all |= role.Permissions
		}
	}
	if all&discordgo.PermissionAdministrator != 0 {
		return allPermissions
	}
	return all
}

// readGuild asks for a workspace, or recalls the answer of less than a minute
// ago.
func (b *Bot) readGuild(ctx context.Context, id string) (guild, error) {
	if g, ok := b.guilds.recall(id, b.config.Now()); ok {
		return g, nil
	}
	var g guild
	err := b.api.Do(ctx, rest.Call{Method: http.MethodGet, Path: "/guilds/" + id, Again: true, Patience: b.pace.question}, &g)
	if err == nil {
		b.guilds.keep(id, g, b.config.Now())
	}
	return g, err
}

// readMember asks for a person in a workspace, or recalls the answer of less
// than a minute ago. That a person is not there is not kept: who comes back is
// known at once.
func (b *Bot) readMember(ctx context.Context, id, person string) (member, error) {
	key := id + "/" + person
	if m, ok := b.members.recall(key, b.config.Now()); ok {
		return m, nil
	}
	var m member
	path := "/guilds/" + id + "/members/" + person
	err := b.api.Do(ctx, rest.Call{Method: http.MethodGet, Path: path, Again: true, Patience: b.pace.question}, &m)
	if err == nil {
		b.members.keep(key, m, b.config.Now())
	}
	return m, err
}
