package discord

import (
	"context"
	"errors"
	"strconv"
	"strings"

	"github.com/bwmarrin/discordgo"

	"detent/bot"
	"detent/tuning"
)

// request is an interaction, taken apart for the rest of the package.
type request struct {
	id, token, app string
	kind           discordgo.InteractionType
	custom         string // what a button or form carries
	pressed        pressed
	club           string // the workspace's number, "" where it is not known
	line           bot.Line
	focus, typed   string // the option being typed, and what stands there
	files          map[string]*discordgo.MessageAttachment
	person, name   string
	vouched        bool // the platform told what the person is in the club
	permissions    int64
	roles          []string
}

// pressed is the message whose button was pressed.
type pressed struct{ id, content string }

// errUnread is an interaction that could not be read: of a kind that nobody
// knows yet, or one that the library handed over without its data.
var errUnread = errors.New("the interaction could not be read")

// read takes an interaction apart. The request is good for answering, even
// with an error: what is missing deep inside one is such an error too.
func read(i *discordgo.Interaction) (q request, err error) {
	q = request{id: i.ID, token: i.Token, app: i.AppID, kind: i.Type, club: i.GuildID}
	defer func() {
		if recover() != nil {
			err = errUnread
		}
	}()
	user := i.User
	if i.Member != nil {
		q.vouched = i.GuildID != ""
		user, q.permissions, q.roles = i.Member.User, i.Member.Permissions, i.Member.Roles
		q.name = i.Member.Nick
	}
	if user == nil {
		return q, errUnread
	}
	q.person = user.ID
	for _, name := range []string{user.GlobalName, user.Username} {
		if q.name == "" {
			q.name = name
		}
	}
	switch data := i.Data.(type) {
	case discordgo.ApplicationCommandInteractionData:
		q.files = map[string]*discordgo.MessageAttachment{}
		q.line.Words = []string{data.Name}
		q.options(data.Options, data.Resolved)
		return q, nil
	case discordgo.MessageComponentInteractionData:
		if i.Message != nil {
			q.pressed = pressed{i.Message.ID, i.Message.Content}
		}
		return q, q.carried(data.CustomID)
	case discordgo.ModalSubmitInteractionData:
		err := q.carried(data.CustomID)
		q.entries(data.Components)
		return q, err
	}
	return q, errUnread
}

// options reads what was typed, going down through subcommands.
func (q *request) options(given []*discordgo.ApplicationCommandInteractionDataOption, resolved *discordgo.ApplicationCommandInteractionDataResolved) {
	for _, o := range given {
		if o.Type <= discordgo.ApplicationCommandOptionSubCommandGroup {
			q.line.Words = append(q.line.Words, o.Name)
			q.options(o.Options, resolved)
			continue
		}
		value := text(o.Value)
		if o.Focused {
			q.focus, q.typed = o.Name, value
			continue
		}
		if o.Type == discordgo.ApplicationCommandOptionAttachment {
			if resolved != nil {
				q.files[o.Name] = resolved.Attachments[value]
			}
			value = o.Name // its content goes beside the line
		}
		q.line.Options = append(q.line.Options, bot.Given{Name: o.Name, Value: value})
	}
}

// text reads an option's value, whatever its type: while it is still being
// typed a number arrives as a text.
func text(value any) string {
	switch v := value.(type) {
	case string:
		return v
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64)
	case bool:
		return strconv.FormatBool(v)
	}
	return ""
}

// carried reads the line that a button or a form carries.
func (q *request) carried(id string) error {
	club, line, err := readID(id)
	q.custom, q.line = id, line
	if q.club == "" {
		q.club = club
	}
	return err
}

// entries reads what was filled in, in the place of what the line gave for it;
// what was left empty was not said.
func (q *request) entries(rows []discordgo.MessageComponent) {
	for _, row := range rows {
		r, ok := row.(*discordgo.ActionsRow)
		if !ok {
			continue
		}
		for _, c := range r.Components {
			if in, ok := c.(*discordgo.TextInput); ok && strings.TrimSpace(in.Value) != "" {
				q.line = q.line.With(in.CustomID, strings.TrimSpace(in.Value))
			}
		}
	}
	q.line = q.line.WithoutBlanks()
}

// organisers are the permissions that make a member an organiser. They are
// checked here again, because a workspace can show its commands to anybody.
const organisers = discordgo.PermissionAdministrator | discordgo.PermissionManageGuild

// who is the person asking: an organiser by the workspace's permissions, and
// with the roles that a club may have given its coaches, both as the platform
// numbers them and as an option names them.
func (q request) who() tuning.Who {
	who := tuning.Who{Club: clubKey(q.club), Person: q.person, Name: q.name, Role: tuning.MemberRole}
	if q.permissions&organisers != 0 {
		who.Role = tuning.OrganiserRole
	}
	for _, role := range q.roles {
		who.Roles = append(who.Roles, role, "<@&"+role+">")
	}
	return who
}

// ask makes a request an ask for the bot.
func (b *Bot) ask(ctx context.Context, q request) (bot.Ask, error) {
	if q.club == "" {
		return bot.Ask{}, bot.Problemf(tuning.Invalid, "I cannot tell here which club you mean: ask me in your club's workspace.")
	}
	if !q.vouched {
		if err := b.standing(ctx, &q); err != nil {
			return bot.Ask{}, err
		}
	}
	line, err := spread(b.config.Lines, q.line)
	if err != nil {
		return bot.Ask{}, err
	}
	ask := bot.Ask{ID: q.id, Who: q.who(), At: b.config.Now(), Line: unmention(b.config.Lines, line), Forms: true}
	for name, a := range q.files {
		content, err := b.files.fetch(ctx, a)
		if err != nil {
			return ask, err
		}
		if ask.Files == nil {
			ask.Files = map[string]string{}
		}
		ask.Files[name] = content
	}
	return ask, nil
}
