package discordtest

import (
	"path"
	"slices"
	"strings"
)

const (
	maxContent    = 2000
	maxEmbeds     = 10
	maxEmbedTotal = 6000
	maxRows       = 5
	maxAlt        = 1024
	maxAttachment = 10 << 20
	maxNonce      = 25
)

// check holds a draft against the rules that do not depend on what the message
// was before.
func (d *draft) check() (b broken) {
	b.within(ContentLength, "the content", d.Content.Value, 0, maxContent)
	b.embeds(d.Embeds.Value)
	if v2 := d.Flags.Value&flagV2 != 0; !v2 {
		b.rows(d.Components.Value)
	} else {
		b.layout(d.Components.Value)
		if d.Content.Value != "" || len(d.Embeds.Value) > 0 {
			b.add(ContentInV2, "content or embeds beside components v2")
		}
	}
	b.customIDs(d.Components.Value)
	b.mentions(d.AllowedMentions)
	b.within(NonceLength, "the nonce", plain(d.Nonce), 0, maxNonce)
	b.attachments(d)
	return b
}

// mentions checks that nobody is notified who is not listed: without
// allowed_mentions the platform notifies everybody whom a text names.
func (b *broken) mentions(m *mentions) {
	switch {
	case m == nil || m.Parse == nil:
		b.add(MentionsOpen, "allowed_mentions is left out, or what it parses")
	case slices.Contains(m.Parse, "users") && len(m.Users) > 0 || slices.Contains(m.Parse, "roles") && len(m.Roles) > 0:
		b.add(AllowedMentions, "parses %v and lists users %v, roles %v", m.Parse, m.Users, m.Roles)
	case len(m.Parse) > 0:
		b.add(MentionsOpen, "allowed_mentions parses %v", m.Parse)
	}
}

func (b *broken) embeds(embeds []Embed) {
	b.atMost(EmbedCount, "embeds", len(embeds), maxEmbeds)
	total := 0
	count := func(what, text string, min, max int) {
		b.within(EmbedText, what, text, min, max)
		total += length(text)
	}
	for _, embed := range embeds {
		count("an embed's title", embed.Title, 0, 256)
		count("an embed's description", embed.Description, 0, 4096)
		if embed.Footer != nil {
			count("an embed's footer", embed.Footer.Text, 0, 2048)
		}
		if embed.Author != nil {
			count("an embed's author", embed.Author.Name, 0, 256)
		}
		b.atMost(EmbedFields, "fields", len(embed.Fields), 25)
		for _, field := range embed.Fields {
			count("the name of field "+field.Name, field.Name, 1, 256)
			count("the value of field "+field.Name, field.Value, 1, 1024)
		}
	}
	b.atMost(EmbedTotal, "characters in all embeds", total, maxEmbedTotal)
}

// rows checks the components of an ordinary message.
func (b *broken) rows(rows []Component) {
	b.atMost(RowCount, "rows", len(rows), maxRows)
	for _, row := range rows {
		if row.Type != compRow {
			b.add(RowContent, "a component of type %d outside a row", row.Type)
			continue
		}
		b.row(row.Components)
	}
}

// layout checks the rows in components v2, however deep they stand.
func (b *broken) layout(components []Component) {
	for _, part := range components {
		if part.Type == compRow {
			b.row(part.Components)
		} else {
			b.layout(part.Components)
		}
	}
}

func (b *broken) row(parts []Component) {
	selects := 0
	for _, part := range parts {
		switch {
		case part.Type == compButton:
			b.button(part)
		case part.isSelect():
			selects++
			if part.Type == compSelect {
				b.selectOptions(part)
			}
		default:
			b.add(RowContent, "a row cannot hold a component of type %d", part.Type)
		}
	}
	if len(parts) == 0 || len(parts) > 5 || selects > 0 && len(parts) > 1 {
		b.add(RowContent, "a row holds one to five buttons or one select, not %d parts with %d selects", len(parts), selects)
	}
}

func (c Component) isSelect() bool {
	return c.Type == compSelect || c.Type > compTextInput && c.Type <= compChannels
}

func (b *broken) button(button Component) {
	b.within(ButtonLabel, "button "+button.Label, button.Label, 0, 80)
	if button.Label == "" && button.Emoji == nil {
		b.add(ButtonLabel, "button %s has neither label nor emoji", button.CustomID)
	}
	if link := button.Style == styleLink; link != (button.URL != "") || link != (button.CustomID == "") {
		b.add(ButtonLink, "button %s: style %d, address %q, custom id %q", button.Label, button.Style, button.URL, button.CustomID)
	}
}

func (b *broken) selectOptions(menu Component) {
	if n := len(menu.Options); n < 1 || n > 25 {
		b.add(SelectOptions, "select %s has %d options", menu.CustomID, n)
	}
	for _, option := range menu.Options {
		b.within(SelectOptions, "label "+option.Label, option.Label, 1, 100)
		b.within(SelectOptions, "value "+option.Value, option.Value, 1, 100)
		b.within(SelectOptions, "description of "+option.Label, option.Description, 0, 100)
	}
}

// customIDs checks that every interactive part has an id of its own.
func (b *broken) customIDs(components []Component) {
	seen := map[string]bool{}
	for part := range interactive(components) {
		b.within(CustomID, "custom id of "+part.Label, part.CustomID, 1, 100)
		if seen[part.CustomID] {
			b.add(CustomIDTwice, "%q", part.CustomID)
		}
		seen[part.CustomID] = true
	}
}

// interactive walks the buttons without address, the selects and the inputs of
// a message or form, in reading order.
func interactive(components []Component) func(yield func(Component) bool) {
	return func(yield func(Component) bool) {
		for _, part := range components {
			if part.isSelect() || part.Type == compTextInput || part.Type == compButton && part.Style != styleLink {
				if !yield(part) {
					return
				}
			}
			inner := part.Components
			if part.Accessory != nil {
				inner = append(slices.Clone(inner), *part.Accessory)
			}
			for deeper := range interactive(inner) {
				if !yield(deeper) {
					return
				}
			}
		}
	}
}

// attachments checks sizes and alt texts.
func (b *broken) attachments(d *draft) {
	for i, file := range d.files {
		if len(file.Data) > maxAttachment {
			b.add(AttachmentSize, "%s has %d bytes", file.Name, len(file.Data))
		}
		described := slices.ContainsFunc(d.Attachments.Value, func(ref attachmentRef) bool {
			return d.sent(ref.ID) == i && ref.Description != ""
		})
		if isPicture(file) && !described {
			b.add(PictureAlt, "%s has no alt text", file.Name)
		}
	}
	for _, ref := range d.Attachments.Value {
		b.within(AttachmentAlt, "the alt text of "+ref.Filename, ref.Description, 0, maxAlt)
	}
}

func isPicture(file File) bool {
	return strings.HasPrefix(file.Type, "image/") || slices.Contains([]string{".png", ".jpg", ".jpeg", ".gif", ".webp"}, strings.ToLower(path.Ext(file.Name)))
}

// check holds what a message is to become against what was sent with it:
// pictures name files that it has, and it is not empty.
func (m *message) check(b *broken) {
	for _, embed := range m.embeds {
		for _, image := range []*EmbedImage{embed.Image, embed.Thumbnail} {
			if image == nil {
				continue
			}
			if name, ok := strings.CutPrefix(image.URL, "attachment://"); ok && !m.hasFile(name) {
				b.add(AttachmentRef, "an embed shows %s, which the message does not carry", name)
			}
		}
	}
	if m.content == "" && len(m.embeds) == 0 && len(m.components) == 0 && len(m.files) == 0 {
		b.add(MessageEmpty, "neither content nor embeds, components or files")
	}
}

func (m *message) hasFile(name string) bool {
	return slices.ContainsFunc(m.files, func(f *storedFile) bool { return f.Name == name })
}
