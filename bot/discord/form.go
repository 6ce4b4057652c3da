package discord

import (
	"strings"

	"detent/bot"
)

// form is what opens in front of a person: a line whose missing options are
// asked for one below the other.
type form struct {
	CustomID   string      `json:"custom_id"`
	Title      string      `json:"title"`
	Components []component `json:"components"`
}

// maxEntry is the longest text that an input takes.
const maxEntry = 1000

// openForm makes the form that a button's line asks for, if any. It is made of
// text inputs alone, each in a row: the client library cannot read back what
// comes in any other shape. Its custom id is the button's.
func openForm(lines *bot.Catalogue, id string, line bot.Line) (form, bool) {
	asked, ok := lines.FormFor(line)
	if !ok {
		return form{}, false
	}
	f := form{CustomID: id, Title: clip(asked.Title, maxTitle)}
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
	return component{
		Type: inputType, CustomID: o.Name, Style: style, Required: &o.Required, MaxLength: maxEntry,
		Label: clip(title(o.Name), maxTitle), Placeholder: clip(o.Hint(), maxHelp), Value: o.Value,
	}
}

// title makes an option's name a heading: "front-share" is "Front share".
func title(name string) string {
	words := strings.ReplaceAll(name, "-", " ")
	return strings.ToUpper(words[:1]) + words[1:]
}
