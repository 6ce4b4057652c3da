package discord

import (
	"context"
	"fmt"
	"net/http"
	"slices"
	"strings"

	"github.com/bwmarrin/discordgo"

	"detent/bot/discord/rest"
)

// NoAccess is a channel that nothing can be posted in until somebody mends it:
// it is gone, or the bot lacks permissions there, by the names that the platform
// shows; with neither, the platform refuses for a reason of its own. It is an
// ErrNoAccess.
type NoAccess struct {
	Channel string // its number
	Gone    bool
	Missing []string
	Err     error // what the platform answered, nil where it was not asked to post
}

func (n *NoAccess) Error() string {
	switch {
	case n.Gone:
		return ErrNoAccess.Error() + ": it is gone"
	case len(n.Missing) > 0:
		return ErrNoAccess.Error() + ": " + strings.Join(n.Missing, ", ") + " is missing"
	}
	return fmt.Sprintf("%v: %v", ErrNoAccess, n.Err)
}

func (n *NoAccess) Unwrap() []error { return []error{ErrNoAccess, n.Err} }

// channel is what the bot reads of a channel.
type channel struct {
	Type       int         `json:"type"`
	Guild      string      `json:"guild_id"`
	Parent     string      `json:"parent_id"`
	Exceptions []exception `json:"permission_overwrites"`
}

// exception is what a channel gives and takes away, of a role or of one person.
type exception struct {
	ID    string `json:"id"`
	Type  int    `json:"type"`
	Allow bits   `json:"allow"`
	Deny  bits   `json:"deny"`
}

// toOne is the type of an exception for one person.
const toOne = 1

// inThread is the permission to write in a thread, which the library does not
// name.
const inThread = 1 << 38

// needs are the permissions that what the bot does in a workspace takes: it posts
// guides and reminders in a channel or a thread, some with files. What it
// answers, and what it sends to one person, takes none.
var needs = struct{ post, postInThread, files bits }{
	post:         discordgo.PermissionViewChannel | discordgo.PermissionSendMessages,
	postInThread: discordgo.PermissionViewChannel | inThread,
	files:        discordgo.PermissionAttachFiles,
}

// permissions are the names of all those, as the platform shows them.
var permissions = []struct {
	bit  bits
	name string
}{
	{discordgo.PermissionViewChannel, "View Channel"},
	{discordgo.PermissionSendMessages, "Send Messages"},
	{inThread, "Send Messages in Threads"},
	{discordgo.PermissionAttachFiles, "Attach Files"},
}

// names are the permissions by their names.
func (b bits) names() (names []string) {
	for _, p := range permissions {
		if b&p.bit != 0 {
			names = append(names, p.name)
		}
	}
	return names
}

// mayPost tells whether the bot may post a message in a channel: a *NoAccess
// when it may not. Every interaction tells what the bot may do where it
// happened, but what is posted by itself answers none, so the same is worked out
// from the workspace's roles and the channel's exceptions. Where the platform
// does not answer that, posting itself will show it.
func (b *Bot) mayPost(ctx context.Context, id string, m message) error {
	c, has, err := b.permissionsIn(ctx, id)
	r, refused := rest.AsRefusal(err)
	switch {
	case refused && r.Status == http.StatusNotFound:
		return &NoAccess{Channel: id, Gone: true, Err: err}
	case refused && r.Status == http.StatusForbidden:
		return &NoAccess{Channel: id, Missing: []string{permissions[0].name}, Err: err}
	case err != nil || c.Guild == "":
		return nil
	}
	takes := needs.post
	if c.isThread() {
		takes = needs.postInThread
	}
	if len(m.files) > 0 {
		takes |= needs.files
	}
	if missing := (takes &^ has).names(); missing != nil {
		return &NoAccess{Channel: id, Missing: missing}
	}
	return nil
}

// permissionsIn works out what the bot may do in a channel. A thread has the
// exceptions of the channel that it hangs on.
func (b *Bot) permissionsIn(ctx context.Context, id string) (c channel, has bits, err error) {
	ctx, cancel := context.WithTimeout(ctx, b.pace.standing)
	defer cancel()
	if c, err = b.readChannel(ctx, id); err != nil || c.Guild == "" {
		return c, 0, err
	}
	above := c
	if c.isThread() {
		if above, err = b.readChannel(ctx, c.Parent); err != nil {
			return c, 0, err
		}
	}
	me, err := b.self(ctx)
	if err != nil {
		return c, 0, err
	}
	m, err := b.readMember(ctx, c.Guild, me)
	if err != nil {
		return c, 0, err
	}
	g, err := b.readGuild(ctx, c.Guild)
	return c, above.except(g.permissions(c.Guild, me, m), me, m), err
}

func (c channel) isThread() bool {
	return c.Type >= int(discordgo.ChannelTypeGuildNewsThread) && c.Type <= int(discordgo.ChannelTypeGuildPrivateThread)
}

// except applies the channel's exceptions, as the platform's documentation does
// (from memory): those of everybody, then those of the roles together, then
// those of the person. They bind no administrator.
func (c channel) except(has bits, person string, m member) bits {
	if has == allPermissions {
		return has
	}
	apply := func(concerns func(exception) bool) {
		var allow, deny bits
		for _, e := range c.Exceptions {
			if concerns(e) {
				allow, deny = allow|e.Allow, deny|e.Deny
			}
		}
		has = has&^deny | allow
	}
	apply(func(e exception) bool { return e.ID == c.Guild })
	apply(func(e exception) bool { return e.Type != toOne && e.ID != c.Guild && slices.Contains(m.Roles, e.ID) })
	apply(func(e exception) bool { return e.Type == toOne && e.ID == person })
	return has
}

func (b *Bot) readChannel(ctx context.Context, id string) (c channel, err error) {
	err = b.api.Do(ctx, rest.Call{Method: http.MethodGet, Path: "/channels/" + id, Again: true, Patience: b.pace.question}, &c)
	return c, err
}

// self is the bot's own number as a person, which never changes.
func (b *Bot) self(ctx context.Context) (string, error) {
	if me := b.me.Load(); me != nil {
		return *me, nil
	}
	var user struct{ ID string }
	err := b.api.Do(ctx, rest.Call{Method: http.MethodGet, Path: "/users/@me", Again: true, Patience: b.pace.question}, &user)
	if err == nil {
		b.me.Store(&user.ID)
	}
	return user.ID, err
}
