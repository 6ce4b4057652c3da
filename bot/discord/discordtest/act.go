package discordtest

import (
	"crypto/rand"
	"strings"
)

// Type types a command line and waits for the answer. Files are named in the
// line by their names. What is not registered as typed fails the test.
func (m *Member) Type(line string, files ...File) *Reply {
	m.p.tb.Helper()
	return m.Begin(line, files...).Wait()
}

// Begin types a command line and does not wait.
func (m *Member) Begin(line string, files ...File) *Reply {
	m.p.tb.Helper()
	return m.begin(kindCommand, -1, line, files)
}

// Autocomplete types a line up to its last option's value and returns what is
// offered for it.
func (m *Member) Autocomplete(line string) []Choice {
	m.p.tb.Helper()
	if t, err := readLine(line); err == nil {
		return m.begin(kindAutocomplete, len(t.values)-1, line, nil).Wait().Choices()
	}
	m.p.tb.Fatalf("discordtest: %q cannot be typed", line)
	return nil
}

func (m *Member) begin(kind, focus int, line string, files []File) *Reply {
	m.p.tb.Helper()
	t, err := readLine(line)
	if err != nil {
		m.p.tb.Fatalf("discordtest: %v", err)
	}
	m.p.mu.Lock()
	c := &composer{p: m.p, by: m, files: files, focus: focus}
	data, err := c.compose(t)
	m.p.mu.Unlock()
	if err != nil {
		m.p.tb.Fatalf("discordtest: %s cannot type %q: %v", m.Name, line, err)
	}
	return m.act(kind, data, nil)
}

// Press presses a button of a message, by label or custom id, and waits.
func (m *Member) Press(message Message, button string) *Reply {
	m.p.tb.Helper()
	return m.BeginPress(message, button).Wait()
}

// BeginPress presses a button and does not wait.
func (m *Member) BeginPress(message Message, button string) *Reply {
	m.p.tb.Helper()
	var offered []string
	for part := range interactive(message.Components) {
		if part.Type != compButton {
			continue
		}
		if (part.Label == button || part.CustomID == button) && !part.Disabled {
			return m.act(kindComponent, map[string]any{"custom_id": part.CustomID, "component_type": compButton}, &message)
		}
		offered = append(offered, part.Label)
	}
	m.p.tb.Fatalf("discordtest: there is no button %q to press, only %q", button, offered)
	return nil
}

// Choose picks options of a select, by label or value, and waits. The select is
// named by its placeholder or custom id.
func (m *Member) Choose(message Message, menu string, picks ...string) *Reply {
	m.p.tb.Helper()
	for part := range interactive(message.Components) {
		if part.isSelect() && (part.Placeholder == menu || part.CustomID == menu) && !part.Disabled {
			values := part.pick(picks)
			if len(values) != len(picks) || part.MaxValues > 0 && len(picks) > part.MaxValues {
				m.p.tb.Fatalf("discordtest: %q cannot be picked in %q", picks, menu)
			}
			return m.act(kindComponent, map[string]any{
				"custom_id": part.CustomID, "component_type": part.Type, "values": values,
			}, &message).Wait()
		}
	}
	m.p.tb.Fatalf("discordtest: there is no select %q", menu)
	return nil
}

func (c Component) pick(picks []string) []string {
	var values []string
	for _, pick := range picks {
		for _, option := range c.Options {
			if option.Label == pick || option.Value == pick {
				values = append(values, option.Value)
				break
			}
		}
	}
	return values
}

// SubmitStrange sends back a form that the client library cannot decode (a
// component of a kind that it does not know), and does not wait.
func (m *Member) SubmitStrange() *Reply {
	return m.act(kindForm, map[string]any{"custom_id": "strange", "components": []any{
		map[string]any{"type": compLabel, "id": 1, "component": map[string]any{
			"type": compTextInput, "id": 2, "custom_id": "strange-field", "value": "strange",
		}},
	}}, nil)
}

// act makes the interaction and sends it to the bot.
func (m *Member) act(kind int, data map[string]any, on *Message) *Reply {
	m.p.tb.Helper()
	p := m.p
	p.mu.Lock()
	defer p.mu.Unlock()
	i := &interaction{id: p.newID(), kind: kind, by: m, data: data}
	i.token = i.id + "-" + rand.Text()
	if on != nil {
		if i.source = p.messages[on.ID]; i.source == nil || i.source.deleted {
			p.tb.Fatalf("discordtest: the message %q is no longer there for %s", on.Content, m.Name)
		}
		if on.owner != nil && i.source.flags&flagPrivate != 0 && on.owner.ID != m.ID {
			p.tb.Fatalf("discordtest: %s does not see the private reply to %s", m.Name, on.owner.Name)
		}
		there := *m
		there.channel = i.source.channel
		if there.channel.guild == nil {
			there.Guild = nil
		}
		i.by = &there
	}
	m.Person.refused = false
	p.interactions[i.token] = i
	p.deliver(i)
	return &Reply{p: p, i: i}
}

// FileNamed is a file to send with a command, its media type by its name.
func FileNamed(name string, data []byte) File {
	kind := "application/octet-stream"
	switch {
	case strings.HasSuffix(name, ".csv"):
		kind = "text/csv; charset=utf-8"
	case strings.HasSuffix(name, ".txt"):
		kind = "text/plain; charset=utf-8"
	case strings.HasSuffix(name, ".png"):
		kind = "image/png"
	}
	return File{Name: name, Type: kind, Data: data}
}
