package discordtest

import (
	"encoding/json"
	"net/http"
	"time"
)

// nonceLife is how long an enforced nonce is remembered (a few minutes, from memory).
const nonceLife = 5 * time.Minute

// LimitDirect refuses with 40003 to open more than n direct message channels within d.
func (p *Platform) LimitDirect(n int, d time.Duration) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.openLimit, p.openPer = n, d
}

func (p *Platform) openDirect(c *call) answer {
	var wanted struct {
		Recipient string `json:"recipient_id"`
	}
	var b broken
	if err := json.Unmarshal(c.body, &wanted); err != nil {
		b.add(MalformedBody, "%v", err)
	} else {
		p.spec.check(&b, "CreatePrivateChannelRequest", c.body)
	}
	if len(b) > 0 {
		return p.refuseAll(b, string(c.route))
	}
	who := p.people[wanted.Recipient]
	if who == nil {
		return refusal{http.StatusBadRequest, 50033, "Invalid Recipient(s)"}.answer()
	}
	if p.channels[who.dm.ID] == nil {
		recent := p.opened[:0]
		for _, at := range p.opened {
			if p.now().Sub(at) < p.openPer {
				recent = append(recent, at)
			}
		}
		p.opened = append(recent, p.now())
		if p.openLimit > 0 && len(recent) >= p.openLimit {
			return refusal{http.StatusBadRequest, 40003, "You are opening direct messages too fast"}.answer()
		}
		p.channels[who.dm.ID] = who.dm
	}
	return ok(who.dm.json())
}

// mayPost tells why the bot may not post in a channel, if so.
func (p *Platform) mayPost(channel *Channel) (answer, bool) {
	switch {
	case channel == nil:
		return unknown(10003, "Channel"), false
	case !channel.botMay(PermView) || channel.guild != nil && channel.guild.gone:
		return refusal{http.StatusForbidden, 50001, "Missing Access"}.answer(), false
	case !channel.botMayWrite():
		return refusal{http.StatusForbidden, 50013, "Missing Permissions"}.answer(), false
	case channel.person == nil || channel.person.closed == 0:
		return answer{}, true
	case channel.person.refused:
		return p.refuse(DirectAfterRefusal, "%s takes no direct messages and has done nothing since", channel.person.Name), false
	}
	channel.person.refused = true
	return refusal{http.StatusForbidden, channel.person.closed, "Cannot send messages to this user"}.answer(), false
}

func (p *Platform) postMessage(c *call) answer {
	channel := p.channels[c.PathValue("channel")]
	if refused, may := p.mayPost(channel); !may {
		return refused
	}
	d, b := p.readDraft(c, "MessageCreateRequest")
	if len(b) > 0 {
		return p.refuseAll(b, string(c.route))
	}
	if len(d.files) > 0 && !channel.botMay(PermAttach) || len(d.Embeds.Value) > 0 && !channel.botMay(PermEmbed) {
		return refusal{http.StatusForbidden, 50013, "Missing Permissions"}.answer()
	}
	key := channel.ID + " " + plain(d.Nonce)
	enforced := d.EnforceNonce && d.Nonce != nil
	if enforced {
		if same := p.nonces[key]; same != nil && p.now().Sub(same.at) < nonceLife {
			return ok(p.json(same))
		}
	}
	var owner *Member
	if channel.person != nil {
		owner = &Member{Person: channel.person, channel: channel, locale: "en-GB"}
	}
	m := p.newMessage(channel, owner, d.Flags.Value&^flagPrivate)
	if b := p.put(m, d); len(b) > 0 {
		return p.refuseAll(b, string(c.route))
	}
	p.show(m)
	if enforced {
		p.nonces[key] = m
	}
	return ok(p.json(m))
}

// posted finds the message that a channel's route names.
func (p *Platform) posted(c *call) *message {
	m := p.messages[c.PathValue("message")]
	if m == nil || m.deleted || m.channel.ID != c.PathValue("channel") || m.flags&flagPrivate != 0 {
		return nil
	}
	return m
}

func (p *Platform) getMessage(c *call) answer {
	m := p.posted(c)
	if m == nil {
		return unknown(10008, "Message")
	}
	return ok(p.json(m))
}

func (p *Platform) editMessage(c *call) answer {
	m := p.posted(c)
	if m == nil {
		return unknown(10008, "Message")
	}
	d, b := p.readDraft(c, "MessageEditRequestPartial")
	if d.Flags.Value&flagPrivate != 0 {
		b.add(EditFlags, "a channel's message cannot become private")
	}
	if len(b) == 0 {
		b = p.put(m, d)
	}
	if len(b) > 0 {
		return p.refuseAll(b, string(c.route))
	}
	p.touch(m)
	return ok(p.json(m))
}

func (p *Platform) deleteMessage(c *call) answer {
	m := p.posted(c)
	if m == nil {
		return unknown(10008, "Message")
	}
	m.deleted = true
	return done
}

func (p *Platform) getChannel(c *call) answer {
	channel := p.channels[c.PathValue("channel")]
	if channel == nil {
		return unknown(10003, "Channel")
	}
	if !channel.botMay(PermView) {
		return refusal{http.StatusForbidden, 50001, "Missing Access"}.answer()
	}
	return ok(channel.json())
}
