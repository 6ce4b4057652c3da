package discordtest

import (
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"time"
)

const (
	firstAnswerWithin = 3 * time.Second
	tokenLife         = 15 * time.Minute
)

// The kinds of interaction.
const (
	kindPing = iota + 1
	kindCommand
	kindComponent
	kindAutocomplete
	kindForm
)

// The kinds of first answer.
const (
	unanswered        = 0
	answerPong        = 1
	answerMessage     = 4
	answerDeferred    = 5
	answerUpdateLater = 6
	answerUpdate      = 7
	answerChoices     = 8
	answerForm        = 9
)

// suits lists which first answers an interaction may have.
var suits = map[int][]int{
	kindCommand:      {answerMessage, answerDeferred, answerForm},
	kindComponent:    {answerMessage, answerDeferred, answerUpdateLater, answerUpdate, answerForm},
	kindAutocomplete: {answerChoices},
	kindForm:         {answerMessage, answerDeferred, answerUpdateLater, answerUpdate},
}

// callbackSchema names the published shape of each first answer.
var callbackSchema = map[int]string{
	answerMessage:     "CreateMessageInteractionCallbackRequest",
	answerDeferred:    "CreateMessageInteractionCallbackRequest",
	answerUpdateLater: "UpdateMessageInteractionCallbackRequest",
	answerUpdate:      "UpdateMessageInteractionCallbackRequest",
	answerChoices:     "ApplicationCommandAutocompleteCallbackRequest",
	answerForm:        "ModalInteractionCallbackRequest",
}

// interaction is one thing that a person did, and what came back.
type interaction struct {
	id, token string
	kind      int
	by        *Member
	data      map[string]any
	source    *message // that the button or select stands on
	born      time.Time
	failure   string // why the person sees that the bot did not respond

	answered  int // the kind of first answer
	after     time.Duration
	private   bool
	original  *message // what @original names
	editsAt   int      // edits of the original when it was answered
	followUps []*message
	choices   []Choice
	form      *formShape
}

// settled tells whether the person has an answer to read.
func (i *interaction) settled() bool {
	switch i.answered {
	case unanswered:
		return false
	case answerDeferred:
		return i.original.flags&flagLoading == 0 || i.original.deleted
	case answerUpdateLater:
		return i.original.edits > i.editsAt || len(i.followUps) > 0
	}
	return true
}

// lost tells whether the person was told that the bot did not respond; p.mu is held.
func (p *Platform) lost(i *interaction) bool {
	return i.failure != "" || i.answered == unanswered && !i.born.IsZero() && p.now().Sub(i.born) > firstAnswerWithin
}

func (p *Platform) postCallback(c *call) answer {
	i := p.interactions[c.PathValue("token")]
	if i == nil || i.id != c.PathValue("interaction") {
		return p.refuse(AnswerLate, "no such interaction")
	}
	return p.firstAnswer(i, c.body, c.files, c.parts)
}

// firstAnswer takes the first answer to an interaction, however it came; p.mu is held.
func (p *Platform) firstAnswer(i *interaction, body []byte, files []File, parts []int) answer {
	if i.answered != unanswered {
		return p.refuse(AnswerTwice, "%s", i)
	}
	if p.lost(i) {
		return p.refuse(AnswerLate, "%s was answered after %v", i, p.now().Sub(i.born))
	}
	var callback struct {
		Type int             `json:"type"`
		Data json.RawMessage `json:"data"`
	}
	if err := json.Unmarshal(body, &callback); err != nil {
		return p.refuse(MalformedBody, "%v", err)
	}
	if !slices.Contains(suits[i.kind], callback.Type) || (callback.Type == answerUpdate || callback.Type == answerUpdateLater) && i.source == nil {
		if i.kind == kindForm && callback.Type == answerForm {
			return p.refuse(FormAfterForm, "%s", i)
		}
		return p.refuse(AnswerKind, "%s answered with type %d", i, callback.Type)
	}
	if len(callback.Data) == 0 {
		callback.Data = []byte("{}")
	}
	d := draft{files: files, parts: parts}
	b := p.take(i, callback.Type, callback.Data, &d)
	if len(b) == 0 {
		p.spec.check(&b, callbackSchema[callback.Type], body)
	}
	if len(b) > 0 {
		return p.refuseAll(b, i.String())
	}
	p.accept(i, callback.Type)
	return done
}

// take applies the data of a first answer to what the person sees.
func (p *Platform) take(i *interaction, kind int, data []byte, d *draft) (b broken) {
	switch kind {
	case answerChoices:
		var list struct{ Choices []Choice }
		if err := json.Unmarshal(data, &list); err != nil {
			b.add(PayloadSchema, "%v", err)
		}
		b.choiceList("an autocompletion", list.Choices)
		i.choices = list.Choices
		return b
	case answerForm:
		form := &formShape{}
		if err := json.Unmarshal(data, form); err != nil {
			b.add(PayloadSchema, "%v", err)
		}
		i.form = form
		return checkForm(form)
	}
	if err := json.Unmarshal(data, d); err != nil {
		b.add(PayloadSchema, "%v", err)
		return b
	}
	switch kind {
	case answerMessage:
		m := p.newMessage(i.by.channel, i.by, d.Flags.Value)
		if b = p.put(m, d); len(b) == 0 {
			i.original = m
		}
	case answerDeferred:
		i.original = p.newMessage(i.by.channel, i.by, d.Flags.Value|flagLoading)
	case answerUpdate:
		if b = p.put(i.source, d); len(b) == 0 {
			p.touch(i.source)
		}
	}
	return b
}

// accept notes that the first answer is there.
func (p *Platform) accept(i *interaction, kind int) {
	i.answered, i.after = kind, p.now().Sub(i.born)
	switch kind {
	case answerMessage, answerDeferred:
		p.show(i.original)
	case answerUpdate, answerUpdateLater:
		i.original = i.source
	}
	if i.original != nil {
		i.private = i.original.flags&flagPrivate != 0
		i.editsAt = i.original.edits
	}
}

func (p *Platform) touch(m *message) {
	m.edits++
	m.edited = p.now()
}

// refuseAll notes every broken rule and answers as for the first.
func (p *Platform) refuseAll(b broken, what string) answer {
	first := p.refuse(b[0].Rule, "%s: %s", what, b[0].Detail)
	for _, v := range b[1:] {
		p.violate(v.Rule, "%s: %s", what, v.Detail)
	}
	return first
}

// String tells which interaction it is, for messages of failing tests.
func (i *interaction) String() string {
	what := i.data["name"]
	if what == nil {
		what = i.data["custom_id"]
	}
	return fmt.Sprintf("interaction of %s with %v", i.by.Name, what)
}

// interactionJSON is the interaction as it is delivered; p.mu is held.
func (p *Platform) interactionJSON(i *interaction) []byte {
	by := i.by
	body := map[string]any{
		"id": i.id, "application_id": p.app, "type": i.kind, "data": i.data, "token": i.token, "version": 1,
		"channel_id": by.channel.ID, "channel": by.channel.json(), "app_permissions": permissionText(by.channel.botPermissions()),
		"locale": by.locale, "entitlements": []any{}, "attachment_size_limit": maxAttachment,
	}
	if by.Guild != nil {
		body["guild_id"], body["guild_locale"], body["context"] = by.Guild.ID, "en-US", 0
		body["guild"] = map[string]any{"id": by.Guild.ID, "locale": "en-US", "features": []any{}}
		body["member"] = by.json()
		body["authorizing_integration_owners"] = map[string]any{"0": by.Guild.ID}
	} else {
		body["user"], body["context"] = by.Person.json(), 1
		body["authorizing_integration_owners"] = map[string]any{"0": "0"}
	}
	if i.source != nil {
		body["message"] = p.json(i.source)
	}
	data, err := json.Marshal(body)
	if err != nil {
		p.tb.Fatalf("discordtest: %v", err)
	}
	return data
}

// unknown answers what does not exist.
func unknown(code int, what string) answer {
	return refusal{http.StatusNotFound, code, "Unknown " + what}.answer()
}
