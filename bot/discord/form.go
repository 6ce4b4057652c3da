package discord

import (
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
func openForm(id string, line bot.Line) (form, bool) {
	asked, ok := bot.FormFor(line)
	if !ok {
		return form{}, false
	}
	f := form{CustomID: id, Title: clip(asked.Title, maxTitle)}
	for _, o := range asked.Fields[:min(len(asked.Fields), maxInputs)] {
		f.Components = append(f.Components, component{Type: rowType, Components: []component{input(o)}})
	}
	return f, true
}

// input asks for one option. What it is for stands over it, how to write it
// inside it.
func input(o bot.Option) component {
	style := oneLine
	if o.Kind == bot.Text && !o.Required {
		style = manyLines
	}
	return component{
		Type: inputType, CustomID: o.Name, Style: style, Required: &o.Required, MaxLength: maxEntry,
		Label: clip(o.Name+": "+o.Help, maxTitle), Placeholder: clip(o.Placeholder(), 100),
	}
}
