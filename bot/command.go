package bot

import (
	"context"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"detent/bot/say"
	"detent/bot/spelling"
	"detent/tuning"
	"detent/tuning/unit"
)

// Command declares one line that can be asked. Registration with a platform,
// the console's completion, /help and the README's table all read it.
type Command struct {
	Name    string // one or two words: "car add"
	Help    string // one line
	Role    tuning.Role
	Private bool     // the reply is for the asking person alone
	Own     bool     // it is about the person's own car: for them alone unless they share their answers
	Writes  bool     // it may change something, so it is answered once an id
	Form    []string // the options a form asks for when a button gives none of them
	Options []Option // read off the struct that the command's handler takes

	bindings []binding
	answer   func(ctx context.Context, call Call, book Book) (Reply, error)
	offers   map[string]suggester // what the command itself suggests, by option
}

// Declare joins a command's declaration to the handler that answers it. The
// handler's last parameter is the struct that declares the options; it comes
// decoded. Declare panics on a declaration that cannot be.
func Declare[O any](c Command, answer func(ctx context.Context, call Call, book Book, options O) (Reply, error)) Command {
	c.bindings = bindings(reflect.TypeFor[O]())
	for _, b := range c.bindings {
		c.Options = append(c.Options, b.Option)
	}
	for _, name := range c.Form {
		if _, ok := c.binding(name); !ok {
			panic(fmt.Sprintf("the form of /%s asks for %s, which is no option of it", c.Name, name))
		}
	}
	c.answer = func(ctx context.Context, call Call, book Book) (Reply, error) {
		var options O
		if err := c.decode(call.Ask, call.Imperial(), reflect.ValueOf(&options).Elem()); err != nil {
			return Reply{}, err
		}
		return answer(ctx, call, book, options)
	}
	return c
}

// Suggesting returns the command with suggestions of its own for an option. The
// options hold what could be read of the line so far.
func Suggesting[O any](c Command, option string, offer func(ctx context.Context, call Call, book Book, options O, typed string) ([]Suggestion, error)) Command {
	i := slices.IndexFunc(c.bindings, func(b binding) bool { return b.Name == option })
	if i < 0 {
		panic(fmt.Sprintf("/%s has no option %s to suggest for", c.Name, option))
	}
	c.Options, c.offers = slices.Clone(c.Options), maps.Clone(c.offers)
	c.Options[i].Source = FromCommand
	if c.offers == nil {
		c.offers = map[string]suggester{}
	}
	c.offers[option] = func(ctx context.Context, call Call, book Book, typed string) ([]Suggestion, error) {
		var options O
		c.decodeReadable(call.Ask, call.Imperial(), reflect.ValueOf(&options).Elem())
		return offer(ctx, call, book, options, typed)
	}
	return c
}

// binding finds an option by its name or by another word for it.
func (c Command) binding(name string) (binding, bool) {
	other, _ := spelling.Meant(name) // compression is bump
	for _, word := range []string{name, other} {
		if i := slices.IndexFunc(c.bindings, func(b binding) bool { return b.Name == word }); i >= 0 {
			return c.bindings[i], true
		}
	}
	return binding{}, false
}

func (c Command) optionNames() []string {
	names := make([]string, len(c.Options))
	for i, o := range c.Options {
		names[i] = o.Name
	}
	return names
}

// Usage is the command as it is typed, with what may be left out in brackets.
func (c Command) Usage() string {
	words := []string{"/" + c.Name}
	for _, o := range c.Options {
		word := o.Name + ":" + o.placeholder()
		if !o.Required {
			word = "[" + word + "]"
		}
		words = append(words, word)
	}
	return strings.Join(words, " ")
}

// placeholder stands for an option's value in Usage: its choices or its kind.
func (o Option) placeholder() string {
	switch o.Kind {
	case Choice:
		if len(o.Choices) > 7 {
			return "WORD"
		}
		return strings.Join(o.Choices, "|")
	case Whole:
		return "N"
	case Quantity:
		return unit.Example(o.Of)
	case Lap:
		return "1:23.4"
	case Upload:
		return "FILE"
	case Moment:
		return `"2026-05-16 09:00"`
	case TimeOfDay:
		return "21:30"
	case Length:
		return "3h"
	}
	return "TEXT"
}

// lacking asks for an option that a line of the command lacks.
func (c Command) lacking(o Option) string {
	if o.Kind == Choice {
		return fmt.Sprintf("Add %s to /%s: %s.", o.Name, c.Name, say.OneOf(o.Choices))
	}
	return fmt.Sprintf("Add %s:%s to /%s: %s.", o.Name, o.placeholder(), c.Name, o.Help)
}

// Hint says what an option is for and how its value is written.
func (o Option) Hint() string {
	switch o.Kind {
	case Text, Whole:
		return o.Help
	}
	return o.Help + ": " + o.placeholder()
}
