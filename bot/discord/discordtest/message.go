package discordtest

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// message is one message as the platform keeps it.
type message struct {
	id         string
	channel    *Channel
	owner      *Member // who it was shown to in answer, or whose direct message it is
	content    string
	embeds     []Embed
	components []Component
	files      []*storedFile
	flags      int
	at, edited time.Time
	edits      int
	allowed    *mentions
	deleted    bool
}

// Message is a message as it stood when it was looked at.
type Message struct {
	ID         string
	Channel    string // its name
	Content    string
	Embeds     []Embed
	Components []Component
	Files      []File
	Private    bool // only the person who asked sees it
	Loading    bool // "thinking": the answer was deferred and is not there yet
	Deleted    bool
	Edits      int
	Pings      []string // whom it notifies: ids, or "everyone"
	At         time.Time

	p     *Platform
	owner *Member
}

// snapshot is what people see of the message now; p.mu is held. What it shares
// with the message is replaced by edits, never changed in place.
func (p *Platform) snapshot(m *message) Message {
	s := Message{
		ID: m.id, Channel: m.channel.Name, Content: m.content, Embeds: m.embeds, Components: m.components,
		Private: m.flags&flagPrivate != 0, Loading: m.flags&flagLoading != 0, Deleted: m.deleted,
		Edits: m.edits, Pings: m.pings(), At: m.at, p: p, owner: m.owner,
	}
	for _, file := range m.files {
		s.Files = append(s.Files, file.File)
	}
	return s
}

// Text is everything that there is to read: content, embeds and components v2.
func (m Message) Text() string {
	var lines []string
	say := func(text string) {
		if text != "" {
			lines = append(lines, text)
		}
	}
	say(m.Content)
	for _, embed := range m.Embeds {
		if embed.Author != nil {
			say(embed.Author.Name)
		}
		say(embed.Title)
		say(embed.Description)
		for _, field := range embed.Fields {
			say(field.Name)
			say(field.Value)
		}
		if embed.Footer != nil {
			say(embed.Footer.Text)
		}
	}
	var parts func([]Component)
	parts = func(components []Component) {
		for _, part := range components {
			say(part.Content)
			parts(part.Components)
		}
	}
	parts(m.Components)
	return strings.Join(lines, "\n")
}

// Buttons lists the labels that can be pressed, in reading order.
func (m Message) Buttons() []string {
	var labels []string
	for part := range interactive(m.Components) {
		if part.Type == compButton && !part.Disabled {
			labels = append(labels, part.Label)
		}
	}
	return labels
}

var (
	userMention = regexp.MustCompile(`<@!?(\d+)>`)
	roleMention = regexp.MustCompile(`<@&(\d+)>`)
)

// pings lists whom the content notifies, as allowed_mentions lets it; without
// allowed_mentions everybody named is.
func (m *message) pings() []string {
	var found []string
	permit := func(kind, id string, listed []string) {
		if m.allowed == nil || slices.Contains(m.allowed.Parse, kind) || slices.Contains(listed, id) {
			found = append(found, id)
		}
	}
	var users, roles []string
	if m.allowed != nil {
		users, roles = m.allowed.Users, m.allowed.Roles
	}
	for _, match := range userMention.FindAllStringSubmatch(m.content, -1) {
		permit("users", match[1], users)
	}
	for _, match := range roleMention.FindAllStringSubmatch(m.content, -1) {
		permit("roles", match[1], roles)
	}
	if strings.Contains(m.content, "@everyone") || strings.Contains(m.content, "@here") {
		permit("everyone", "everyone", nil)
	}
	return found
}

// put makes the message what the draft, which keeps the rules in itself, wants;
// or tells which rules the message would then break and leaves it as it was.
// p.mu is held.
func (p *Platform) put(m *message, d *draft) broken {
	var b broken
	next := *m
	if d.Content.Set {
		next.content = d.Content.Value
	}
	if d.Embeds.Set {
		next.embeds = d.Embeds.Value
	}
	if d.Components.Set {
		next.components = d.Components.Value
	}
	if d.AllowedMentions != nil || d.Content.Set {
		next.allowed = d.AllowedMentions
	}
	next.flags = next.flags&^flagLoading | d.Flags.Value&flagV2
	next.files = p.attach(&b, m, d)
	next.check(&b)
	if len(b) > 0 {
		return b
	}
	for _, file := range next.files {
		p.files[file.id] = file
	}
	*m = next
	return nil
}

// attach gives the files that the message will carry: the old ones that the
// draft keeps (all, when it lists none) and those sent along.
func (p *Platform) attach(b *broken, m *message, d *draft) []*storedFile {
	kept := slices.Clone(m.files)
	said := map[int]attachmentRef{} // by the place among d.files
	if d.Attachments.Set {
		kept = nil
		for _, ref := range d.Attachments.Value {
			if i := slices.IndexFunc(m.files, func(f *storedFile) bool { return f.id == ref.ID }); i >= 0 {
				kept = append(kept, m.files[i])
			} else if i := d.sent(ref.ID); i >= 0 {
				said[i] = ref
			} else {
				b.add(AttachmentRef, "attachment %s is neither of the message nor sent along", ref.ID)
			}
		}
	}
	for i, file := range d.files {
		file.Description = said[i].Description
		if name := said[i].Filename; name != "" {
			file.Name = name
		}
		kept = append(kept, p.newFile(file, m.channel, m.flags&flagPrivate != 0))
	}
	return kept
}

// sent is the place among the files sent along of the one that an attachment's
// id means, the n of its files[n]; -1 when there is none.
func (d *draft) sent(id string) int {
	return slices.IndexFunc(d.parts, func(n int) bool { return strconv.Itoa(n) == id })
}

// touch notes an edit.
func (p *Platform) touch(m *message) {
	m.edits++
	m.edited = p.now()
}

// newMessage makes an empty message, not yet to be seen; p.mu is held.
func (p *Platform) newMessage(channel *Channel, owner *Member, flags int) *message {
	return &message{id: p.newID(), channel: channel, owner: owner, flags: flags & (flagPrivate | flagV2 | flagLoading), at: p.now()}
}

// show lets the message be seen; p.mu is held.
func (p *Platform) show(m *message) {
	p.messages[m.id] = m
	m.channel.messages = append(m.channel.messages, m)
}

// json is the message as the API returns it; p.mu is held.
func (p *Platform) json(m *message) map[string]any {
	files := []any{}
	for _, file := range m.files {
		files = append(files, file.json())
	}
	shown := map[string]any{
		"id": m.id, "channel_id": m.channel.ID, "type": 0, "content": m.content,
		"embeds": orEmpty(m.embeds), "components": orEmpty(m.components), "attachments": files,
		"flags": m.flags, "author": p.botUser(), "application_id": p.app,
		"timestamp": m.at.UTC().Format(time.RFC3339Nano), "edited_timestamp": nil,
		"mentions": []any{}, "mention_roles": []any{}, "mention_everyone": false, "pinned": false, "tts": false,
	}
	if !m.edited.IsZero() {
		shown["edited_timestamp"] = m.edited.UTC().Format(time.RFC3339Nano)
	}
	return shown
}

// orEmpty turns nil into an empty list, which the API shows as [].
func orEmpty[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}
