package discord

import (
	"context"
	"strings"

	"detent/bot"
	"detent/tuning"
)

// form is what opens in front of a person: a line whose missing options are
// asked for one below the other.
type form struct {
	CustomID   string      `json:"custom_id"`
	Title      string      `json:"title"`
	Components []component `json:"components"`
}

// maxEntry is the longest text that an input takes, maxValue the longest that
// it may be opened with. An input that is opened with more takes that much.
const (
	maxEntry = 1000
	maxValue = 4000
)

// openForm makes the form that a button asks for, if any. It is made of text
// inputs alone, each in a row: the client library cannot read back what comes
// in any other shape. Its custom id is the button's. A form is a first answer
// and cannot be announced, so what takes too long to find opens none.
func (t *turn) openForm(ctx context.Context) (form, bool) {
	ctx, cancel := context.WithDeadline(ctx, t.born.Add(t.b.pace.deferral))
	defer cancel()
	who := tuning.Who{Club: clubKey(t.club), Person: t.person, Role: tuning.MemberRole}
	asked, ok := t.b.bot.Form(ctx, bot.Ask{ID: t.id, Who: who, At: t.b.config.Now(), Line: t.line})
	if !ok {
		return form{}, false
	}
	f := form{CustomID: t.custom, Title: clip(asked.Title, maxTitle)}
	for _, o := range asked.Fields[:min(len(asked.Fields), maxInputs)] {
		f.Components = append(f.Components, component{Type: rowType, Components: []component{input(o)}})
	}
	return f, true
}

// input asks for one option. Its name stands over it, what it is for and how to
// write it inside it.
func input(o bot.Field) component {
	style := oneLine
	if o.Kind == bot.Text && !o.Required {
		style = manyLines
	}
	most := maxEntry
	if length(o.Value) > most/2 {
		most = maxValue
	}
	return component{
		Type: inputType, CustomID: o.Name, Style: style, Required: &o.Required, MaxLength: most,
		Label: clip(title(o.Name), maxTitle), Placeholder: clip(o.Hint(), maxHelp), Value: o.Value,
	}
}

// title makes an option's name a heading: "front-share" is "Front share".
func title(name string) string {
	words := strings.ReplaceAll(name, "-", " ")
	return strings.ToUpper(words[:1]) + words[1:]
}
