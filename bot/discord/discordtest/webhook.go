package discordtest

import (
	"encoding/json"
	"slices"
)

// openInteraction finds the interaction that a token belongs to and tells whether more may
// be said in it; p.mu is held.
func (p *Platform) openInteraction(c *call) (*interaction, answer, bool) {
	i := p.interactions[c.PathValue("token")]
	switch {
	case i == nil || c.PathValue("app") != p.app:
		return nil, unknown(10015, "Webhook"), false
	case p.now().Sub(i.born) > tokenLife:
		return nil, p.refuse(TokenExpired, "%s is %v old", i, p.now().Sub(i.born)), false
	case i.answered == unanswered:
		return nil, p.refuse(AnswerFirst, "%s", i), false
	}
	return i, answer{}, true
}

// readDraft reads a message's payload and holds it against a schema.
func (p *Platform) readDraft(c *call, schema string) (*draft, broken) {
	d := &draft{files: c.files, parts: c.parts}
	var b broken
	body := c.body
	if body == nil {
		body = []byte("{}")
	}
	if err := json.Unmarshal(body, d); err != nil {
		b.add(PayloadSchema, "%v", err)
		return d, b
	}
	if b = d.check(); len(b) == 0 {
		p.spec.check(&b, schema, body)
	}
	return d, b
}

// postFollowUp says more. While the first answer is still loading it takes its
// place, as on the platform (from memory).
func (p *Platform) postFollowUp(c *call) answer {
	i, refused, open := p.openInteraction(c)
	if !open {
		return refused
	}
	d, b := p.readDraft(c, "IncomingWebhookRequestPartial")
	if len(b) > 0 {
		return p.refuseAll(b, i.String())
	}
	loading := i.answered == answerDeferred && i.original.flags&flagLoading != 0 && !i.original.deleted
	m := i.original
	if !loading {
		if i.private && d.Flags.Value&flagPrivate == 0 {
			return p.refuse(PrivateStays, "%s is followed up in the open", i)
		}
		m = p.newMessage(i.by.channel, i.by, d.Flags.Value)
	}
	if b := p.put(m, d); len(b) > 0 {
		return p.refuseAll(b, i.String())
	}
	if !loading {
		p.show(m)
		i.followUps = append(i.followUps, m)
	}
	if c.URL.Query().Get("wait") != "true" {
		return done
	}
	return ok(p.json(m))
}

// reply finds the message that a webhook route names.
func (p *Platform) reply(c *call, i *interaction) *message {
	id := c.PathValue("message")
	if id == "@original" {
		if i.original == nil || i.original.deleted {
			return nil
		}
		return i.original
	}
	at := slices.IndexFunc(i.followUps, func(m *message) bool { return m.id == id && !m.deleted })
	if at >= 0 {
		return i.followUps[at]
	}
	if i.original != nil && i.original.id == id && !i.original.deleted {
		return i.original
	}
	return nil
}

func (p *Platform) getReply(c *call) answer {
	i, refused, open := p.openInteraction(c)
	if !open {
		return refused
	}
	m := p.reply(c, i)
	if m == nil {
		return unknown(10008, "Message")
	}
	return ok(p.json(m))
}

func (p *Platform) editReply(c *call) answer {
	i, refused, open := p.openInteraction(c)
	if !open {
		return refused
	}
	m := p.reply(c, i)
	if m == nil {
		return unknown(10008, "Message")
	}
	d, b := p.readDraft(c, "IncomingWebhookUpdateRequestPartial")
	if d.Flags.Value&flagPrivate != 0 {
		b.add(EditFlags, "who sees a message is settled by its first answer")
	}
	if len(b) == 0 {
		b = p.put(m, d)
	}
	if len(b) > 0 {
		return p.refuseAll(b, i.String())
	}
	p.touch(m)
	return ok(p.json(m))
}

func (p *Platform) deleteReply(c *call) answer {
	i, refused, open := p.openInteraction(c)
	if !open {
		return refused
	}
	m := p.reply(c, i)
	if m == nil {
		return unknown(10008, "Message")
	}
	m.deleted = true
	return done
}
