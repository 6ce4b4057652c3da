package discord

import (
	"slices"
	"strconv"
	"strings"

	"detent/bot"
	"detent/bot/discord/rest"
)

// compose writes a reply's message as the platform takes it: the same words, as
// text. A message to one person carries the club in its buttons.
func compose(r bot.Reply, club string) message {
	told := r.Message()
	m := message{Components: []component{}, Mentions: mentions{Parse: []string{}}}
	if r.View.Show {
		told.Actions = append(slices.Clone(told.Actions), showToAll)
	}
	rows, untapped := buttons(told.Actions, club)
	m.Components = append(m.Components, rows...)
	below := append(attach(&m, told), untapped...)
	content := marked(told, told.Text, below)
	if over := length(content) - maxContent; over > 0 { // markup takes room too
		content = marked(told, clip(told.Text, max(1, length(told.Text)-over)), nil)
	}
	if m.Content = clip(content, maxContent); m.Content == "" {
		m.Content = "Done."
	}
	return m
}

// marked is a message in the platform's markup.
func marked(m bot.Message, text string, below []string) string {
	var parts []string
	add := func(part string) {
		if part != "" {
			parts = append(parts, part)
		}
	}
	if title := strings.TrimSpace(clip(m.Title, maxHeading)); title != "" {
		add("**" + plain(title) + "**")
	}
	add(named(plain(text)))
	add(plain(m.Line))
	for _, line := range below {
		add(plain(line))
	}
	if table := m.TableText(); table != "" {
		add("```\n" + table + "\n```")
	}
	add(plain(m.Care))
	return strings.TrimSpace(strings.Join(parts, "\n"))
}

// maxHeading is the longest first line.
const maxHeading = 400

// attach adds the picture, with its words, and the files; it says which of
// them have no room.
func attach(m *message, told bot.Message) (left []string) {
	add := func(f rest.File, words string) {
		if len(f.Data) > maxFile {
			left = append(left, f.Name+" is too large to send here.")
			return
		}
		m.Attachments = append(m.Attachments, attachment{ID: strconv.Itoa(len(m.files)), Filename: f.Name, Description: clip(words, maxAlt)})
		m.files = append(m.files, f)
	}
	if p := told.Picture; p != nil && len(p.PNG) > 0 {
		add(rest.File{Name: "picture.png", Kind: "image/png", Data: p.PNG}, p.Alt)
	}
	for _, f := range told.Files {
		add(rest.File{Name: f.Name, Kind: f.Type, Data: f.Data}, "")
	}
	return left
}
