package discordtest

import (
	"fmt"
	"strconv"
	"strings"
)

// value turns what was typed into what the option's type sends.
func (c *composer) value(option Option, text string) (any, error) {
	if len(option.Choices) > 0 {
		for _, choice := range option.Choices {
			if choice.Name == text || plain(choice.Value) == text {
				return choice.Value, nil
			}
		}
		return nil, fmt.Errorf("%q is not among the choices", text)
	}
	switch option.Type {
	case optString:
		n := length(text)
		if option.MinLength != nil && n < *option.MinLength || option.MaxLength != nil && n > *option.MaxLength {
			return nil, fmt.Errorf("%q has %d characters, which the option does not take", text, n)
		}
		return text, nil
	case optInteger, optNumber:
		return option.number(text)
	case optBoolean:
		switch text {
		case "true", "yes":
			return true, nil
		case "false", "no":
			return false, nil
		}
		return nil, fmt.Errorf("%q is neither true nor false", text)
	case optAttachment:
		return c.file(text)
	}
	return c.thing(option.Type, text)
}

func (o Option) number(text string) (any, error) {
	n, err := strconv.ParseFloat(text, 64)
	if err != nil || o.Type == optInteger && n != float64(int64(n)) {
		return nil, fmt.Errorf("%q is not the number that is asked for", text)
	}
	if o.MinValue != nil && n < *o.MinValue || o.MaxValue != nil && n > *o.MaxValue {
		return nil, fmt.Errorf("%s is out of the range", text)
	}
	if o.Type == optInteger {
		return int64(n), nil
	}
	return n, nil
}

// file uploads a file that the person sends with the command.
func (c *composer) file(name string) (any, error) {
	for _, file := range c.files {
		if file.Name == name {
			stored := c.p.newFile(file, c.by.channel, true)
			c.p.files[stored.id] = stored
			c.resolve("attachments", stored.id, stored.json())
			return stored.id, nil
		}
	}
	return nil, fmt.Errorf("no file %s was handed over", name)
}

// thing finds a member, channel or role of the guild by name.
func (c *composer) thing(kind int, text string) (any, error) {
	name := strings.TrimLeft(text, "@#")
	if c.by.Guild == nil {
		return nil, fmt.Errorf("%s cannot be named in direct messages", text)
	}
	g := c.by.Guild
	if kind == optUser || kind == optMentionable {
		for _, m := range g.members {
			if m.Name == name {
				c.resolve("users", m.ID, m.Person.json())
				partial := m.json()
				delete(partial, "user")
				partial["permissions"] = permissionText(m.permissions())
				c.resolve("members", m.ID, partial)
				return m.ID, nil
			}
		}
	}
	if kind == optChannel {
		for _, channel := range g.channels {
			if channel.Name == name {
				c.resolve("channels", channel.ID, channel.json())
				return channel.ID, nil
			}
		}
	}
	if id := g.roles[name]; id != "" && (kind == optRole || kind == optMentionable) {
		c.resolve("roles", id, map[string]any{"id": id, "name": name, "permissions": "0"})
		return id, nil
	}
	return nil, fmt.Errorf("%s has no %s", g.Name, text)
}

func (c *composer) resolve(kind, id string, what any) {
	if c.resolved == nil {
		c.resolved = map[string]map[string]any{}
	}
	if c.resolved[kind] == nil {
		c.resolved[kind] = map[string]any{}
	}
	c.resolved[kind][id] = what
}
