package discordtest

import (
	"fmt"
	"strconv"
	"strings"
)

// typed is a command line as a person types it: the words and the options.
type typed struct {
	words  []string
	values []named
}

type named struct{ name, value string }

// readLine takes `/word word name:value name:"value with spaces"`; within
// quotes a backslash keeps the next character as it is.
func readLine(line string) (typed, error) {
	var t typed
	rest, slash := strings.CutPrefix(strings.TrimSpace(line), "/")
	if !slash {
		return t, fmt.Errorf("%q does not begin with /", line)
	}
	for _, token := range tokens(rest) {
		name, value, hasValue := strings.Cut(token, ":")
		switch {
		case hasValue:
			t.values = append(t.values, named{name, value})
		case len(t.values) > 0:
			return t, fmt.Errorf("%q: the word %q stands after the options", line, token)
		default:
			t.words = append(t.words, token)
		}
	}
	if len(t.words) == 0 {
		return t, fmt.Errorf("%q names no command", line)
	}
	return t, nil
}

// tokens splits at spaces outside quotes and takes the quotes away.
func tokens(s string) []string {
	var found []string
	var token strings.Builder
	begun, quoted, kept := false, false, false
	for _, r := range s {
		switch {
		case kept:
			token.WriteRune(r)
			kept = false
		case quoted && r == '\\':
			kept = true
		case r == '"':
			quoted, begun = !quoted, true
		case r == ' ' && !quoted:
			if begun {
				found = append(found, token.String())
				token.Reset()
			}
			begun = false
		default:
			token.WriteRune(r)
			begun = true
		}
	}
	if begun {
		found = append(found, token.String())
	}
	return found
}

// composer turns a typed line into the data of an interaction, as the person's
// client does: it lets nobody send what is not registered.
type composer struct {
	p        *Platform
	by       *Member
	files    []File
	resolved map[string]map[string]any
	focus    int // index of the option being typed in autocompletion, else -1
}

// compose finds the command that the words name and fills its options; p.mu is held.
func (c *composer) compose(t typed) (map[string]any, error) {
	command, err := c.command(t.words[0])
	if err != nil {
		return nil, err
	}
	options, path := command.Options, []Option(nil)
	for _, word := range t.words[1:] {
		option, ok := find(options, word)
		if !ok || option.Type > optGroup {
			return nil, fmt.Errorf("/%s has no subcommand %s", strings.Join(t.words, " "), word)
		}
		path, options = append(path, option), option.Options
	}
	if len(options) > 0 && options[0].Type <= optGroup {
		return nil, fmt.Errorf("/%s needs a subcommand", strings.Join(t.words, " "))
	}
	values, err := c.fill(options, t.values)
	if err != nil {
		return nil, fmt.Errorf("/%s: %w", strings.Join(t.words, " "), err)
	}
	for i := len(path) - 1; i >= 0; i-- {
		values = []any{map[string]any{"type": path[i].Type, "name": path[i].Name, "options": values}}
	}
	data := map[string]any{"id": command.ID, "name": command.Name, "type": 1, "options": values}
	if len(c.resolved) > 0 {
		data["resolved"] = c.resolved
	}
	return data, nil
}

// command finds what the member sees under a name: the guild's own before the global one.
func (c *composer) command(name string) (Command, error) {
	var scopes []string
	if c.by.Guild != nil {
		if c.by.Guild.gone {
			return Command{}, fmt.Errorf("the bot is no longer in %s", c.by.Guild.Name)
		}
		scopes = append(scopes, c.by.Guild.ID)
	}
	for _, scope := range append(scopes, "") {
		for _, command := range c.p.commands[scope] {
			if command.Name != name {
				continue
			}
			if bits, err := strconv.ParseUint(plain(command.DefaultMemberPermissions), 10, 64); err == nil && c.by.Guild != nil && !c.by.may(bits) {
				return command, fmt.Errorf("%s is not shown /%s: it needs the permissions %d", c.by.Name, name, bits)
			}
			if c.by.Guild == nil && !command.inDirect() {
				return command, fmt.Errorf("/%s is not shown in direct messages", name)
			}
			return command, nil
		}
	}
	return Command{}, fmt.Errorf("/%s is not registered", name)
}

func (c Command) inDirect() bool {
	for _, context := range c.Contexts {
		if context == 1 {
			return true
		}
	}
	return c.Contexts == nil && (c.DMPermission == nil || *c.DMPermission)
}

func find(options []Option, name string) (Option, bool) {
	for _, option := range options {
		if option.Name == name {
			return option, true
		}
	}
	return Option{}, false
}

// fill gives the options their values and insists on the required ones, which
// need not be there yet while a line is being completed.
func (c *composer) fill(options []Option, values []named) ([]any, error) {
	filled, given := []any{}, map[string]bool{}
	for i, v := range values {
		option, ok := find(options, v.name)
		if !ok {
			return nil, fmt.Errorf("there is no option %s", v.name)
		}
		if given[v.name] {
			return nil, fmt.Errorf("the option %s is given twice", v.name)
		}
		given[v.name] = true
		entry := map[string]any{"type": option.Type, "name": option.Name}
		if i == c.focus {
			if !option.Autocomplete {
				return nil, fmt.Errorf("the option %s offers no completion", v.name)
			}
			entry["focused"], entry["value"] = true, v.value
		} else {
			value, err := c.value(option, v.value)
			if err != nil {
				return nil, fmt.Errorf("option %s: %w", v.name, err)
			}
			entry["value"] = value
		}
		filled = append(filled, entry)
	}
	for _, option := range options {
		if option.Required && !given[option.Name] && c.focus < 0 {
			return nil, fmt.Errorf("the required option %s is missing", option.Name)
		}
	}
	return filled, nil
}
