package discordtest

import (
	"encoding/json"
	"slices"
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

// callback is a first answer as it was sent; what its kind does not use is empty.
type callback struct {
	kind    int
	draft   draft
	choices []Choice
	form    *formShape
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
	var sent struct {
		Type int             `json:"type"`
		Data json.RawMessage `json:"data"`
	}
	if err := json.Unmarshal(body, &sent); err != nil {
		return p.refuse(MalformedBody, "%v", err)
	}
	if rule, suited := i.takes(sent.Type); !suited {
		return p.refuse(rule, "%s answered with type %d", i, sent.Type)
	}
	c := &callback{kind: sent.Type, draft: draft{files: files, parts: parts}}
	b := c.read(sent.Data)
	if kind, typing := i.typing(); typing {
		b.choiceValues("an autocompletion", kind, c.choices)
	}
	if len(b) == 0 {
		p.spec.check(&b, callbackSchema[c.kind], body)
	}
	if len(b) == 0 {
		b = p.apply(i, c)
	}
	if len(b) > 0 {
		return p.refuseAll(b, i.String())
	}
	p.accept(i, c.kind)
	return done
}

// takes tells whether a kind of answer suits the interaction, and else which
// rule it breaks.
func (i *interaction) takes(kind int) (Rule, bool) {
	if i.kind == kindForm && kind == answerForm {
		return FormAfterForm, false
	}
	changes := kind == answerUpdate || kind == answerUpdateLater
	return AnswerKind, slices.Contains(suits[i.kind], kind) && (i.source != nil || !changes)
}

// read reads the data and holds it against the rules.
func (c *callback) read(data []byte) (b broken) {
	if len(data) == 0 {
		data = []byte("{}")
	}
	decode := func(into any) bool {
		err := json.Unmarshal(data, into)
		if err != nil {
			b.add(PayloadSchema, "%v", err)
		}
		return err == nil
	}
	switch c.kind {
	case answerChoices:
		var list struct{ Choices []Choice }
		if decode(&list) {
			c.choices = list.Choices
			b.choiceList("an autocompletion", c.choices)
		}
	case answerForm:
		c.form = &formShape{}
		if decode(c.form) {
			b = checkForm(c.form)
		}
	case answerDeferred, answerUpdateLater:
		b.deferral(c.kind, data)
		decode(&c.draft)
	default:
		if decode(&c.draft) {
			b = c.draft.check()
		}
	}
	return b
}

// deferral checks that a deferral carries nothing but the private flag, and
// that only where a message will follow.
func (b *broken) deferral(kind int, data []byte) {
	var said map[string]any
	if err := json.Unmarshal(data, &said); err != nil {
		b.add(PayloadSchema, "%v", err)
		return
	}
	for key, value := range said {
		private := key == "flags" && value == float64(flagPrivate) && kind == answerDeferred
		if !private && !isEmpty(value) {
			b.add(DeferralData, "%s is %v", key, value)
		}
	}
}

// apply changes what the person sees.
func (p *Platform) apply(i *interaction, c *callback) (b broken) {
	switch c.kind {
	case answerChoices:
		i.choices = c.choices
	case answerForm:
		i.form = c.form
	case answerMessage:
		m := p.newMessage(i.by.channel, i.by, c.draft.Flags.Value)
		if b = p.put(m, &c.draft); len(b) == 0 {
			i.original = m
		}
	case answerDeferred:
		i.original = p.newMessage(i.by.channel, i.by, c.draft.Flags.Value|flagLoading)
	case answerUpdate:
		if b = p.put(i.source, &c.draft); len(b) == 0 {
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
