package discordtest

import (
	"fmt"
	"math"
	"regexp"
	"strings"
)

// nameForm is the published form of names of commands and options; they are in
// lower case besides.
var nameForm = regexp.MustCompile(`^[-_'\p{L}\p{N}]{1,32}$`)

const (
	maxCommands    = 100
	maxCommandSize = 8000
	maxOptions     = 25
	maxChoices     = 25
)

// checkCommands holds a bulk registration against the rules.
func checkCommands(commands []Command) (b broken) {
	b.atMost(CommandCount, "commands", len(commands), maxCommands)
	seen := map[string]bool{}
	for _, command := range commands {
		where := "/" + command.Name
		key := fmt.Sprint(command.Type, command.Name)
		if seen[key] {
			b.add(CommandTwice, "%s is registered twice", where)
		}
		seen[key] = true
		if command.Type > 1 { // a menu entry on a person or message: free name, no text
			continue
		}
		b.name(where, command.Name)
		b.within(CommandDescription, where+"'s description", command.Description, 1, 100)
		b.options(where, command.Options, 0)
		if n := length(command.Name+command.Description) + optionsSize(command.Options); n > maxCommandSize {
			b.add(CommandSize, "%s has %d characters of names, descriptions and choices", where, n)
		}
	}
	return b
}

func (b *broken) name(where, name string) {
	if !nameForm.MatchString(name) || strings.ToLower(name) != name {
		b.add(CommandName, "%s: %q", where, name)
	}
}

// options checks the options at one level: 0 in a command, 1 in a group, 2 in a subcommand.
func (b *broken) options(where string, options []Option, level int) {
	b.atMost(OptionCount, "options of "+where, len(options), maxOptions)
	seen, optional, nested := map[string]bool{}, false, 0
	for _, option := range options {
		at := where + " " + option.Name
		if seen[option.Name] {
			b.add(OptionTwice, "%s", at)
		}
		seen[option.Name] = true
		b.name(at, option.Name)
		b.within(CommandDescription, at+"'s description", option.Description, 1, 100)
		if option.Required && optional {
			b.add(OptionOrder, "%s is required and comes after one that is not", at)
		}
		optional = optional || !option.Required
		switch option.Type {
		case optGroup, optSubcommand:
			nested++
			if option.Type == optGroup && level > 0 || level > 1 {
				b.add(OptionNesting, "%s is nested too deep", at)
				continue
			}
			inside := 2
			if option.Type == optGroup {
				inside = 1
			}
			b.options(at, option.Options, inside)
		default:
			if level == 1 {
				b.add(OptionNesting, "%s stands in a group, which holds subcommands only", at)
			}
			b.choices(at, option)
		}
	}
	if nested > 0 && nested < len(options) {
		b.add(OptionNesting, "%s mixes subcommands with options", where)
	}
}

func (b *broken) choices(where string, option Option) {
	if option.Autocomplete && len(option.Choices) > 0 {
		b.add(ChoicesAndAutocomplete, "%s", where)
	}
	b.choiceList(where, option.Choices)
	b.choiceValues(where, option.Type, option.Choices)
	b.traits(where, option)
}

// traits checks that an option has only what its type can have.
func (b *broken) traits(where string, option Option) {
	number, text := option.Type == optInteger || option.Type == optNumber, option.Type == optString
	if (option.Autocomplete || len(option.Choices) > 0) && !number && !text {
		b.add(OptionTraits, "%s is of type %d, which has neither choices nor completion", where, option.Type)
	}
	if (option.MinValue != nil || option.MaxValue != nil) && !number {
		b.add(OptionTraits, "%s is of type %d, which has no range", where, option.Type)
	}
	if (option.MinLength != nil || option.MaxLength != nil) && !text {
		b.add(OptionTraits, "%s is of type %d, which has no length", where, option.Type)
	}
	if option.MinValue != nil && option.MaxValue != nil && *option.MinValue > *option.MaxValue {
		b.add(OptionRange, "%s goes from %v to %v", where, *option.MinValue, *option.MaxValue)
	}
	if option.MinLength != nil && option.MaxLength != nil && *option.MinLength > *option.MaxLength {
		b.add(OptionRange, "%s has lengths from %d to %d", where, *option.MinLength, *option.MaxLength)
	}
}

// choiceValues checks that choices have the type of the option that they are for.
func (b *broken) choiceValues(where string, kind int, choices []Choice) {
	for _, choice := range choices {
		number, isNumber := choice.Value.(float64)
		_, isText := choice.Value.(string)
		fits := true
		switch kind {
		case optString:
			fits = isText
		case optNumber:
			fits = isNumber
		case optInteger:
			fits = isNumber && number == math.Trunc(number)
		}
		if !fits {
			b.add(ChoiceType, "%s: the choice %s is %v, which is not of type %d", where, choice.Name, choice.Value, kind)
		}
	}
}

// choiceList checks choices of a command or of an autocompletion.
func (b *broken) choiceList(where string, choices []Choice) {
	b.atMost(ChoiceCount, "choices of "+where, len(choices), maxChoices)
	seen := map[string]bool{}
	for _, choice := range choices {
		if seen[choice.Name] {
			b.add(ChoiceTwice, "%s: %s", where, choice.Name)
		}
		seen[choice.Name] = true
		b.within(ChoiceText, where+": the name of choice "+choice.Name, choice.Name, 1, 100)
		if text, ok := choice.Value.(string); ok {
			b.within(ChoiceText, where+": the value of choice "+choice.Name, text, 0, 100)
		}
	}
}

// optionsSize is what options count towards the size of their command.
func optionsSize(options []Option) int {
	n := 0
	for _, option := range options {
		n += length(option.Name+option.Description) + optionsSize(option.Options)
		for _, choice := range option.Choices {
			n += length(choice.Name)
			if text, ok := choice.Value.(string); ok {
				n += length(text)
			}
		}
	}
	return n
}
