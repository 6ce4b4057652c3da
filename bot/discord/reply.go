package discord

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"detent/bot"
	"detent/bot/discord/rest"
)

// compose makes a reply a message for a phone: what to do stands first, the
// table of corners is text, and what has no room in the message itself goes to
// a block below it. What is left out there is said in words, and a caution is
// never left out. A message to one person carries the club in its buttons.
func compose(r bot.Reply, club string) message {
	m := message{Components: []component{}, Mentions: mentions{Parse: []string{}}}
	rows, untapped := buttons(r.Actions, club)
	m.Components = append(m.Components, rows...)
	r.Notes = slices.Concat(r.Notes, attach(&m, r))
	title, mind := "**"+plain(clip(r.Title, 400))+"**", section("Mind", r.Cautions)
	if r.Title == "" {
		title = ""
	}
	room := maxContent - length(title) - length(mind)
	content := title
	blocks := details(r, untapped)
	for len(blocks) > 0 && length(blocks[0]) < room {
		content += "\n" + blocks[0]
		room -= length(blocks[0]) + 1
		blocks = blocks[1:]
	}
	m.Content = strings.TrimSpace(content + mind)
	if len(blocks) > 0 {
		m.Embeds = []embed{{Description: shorten(strings.Join(blocks, "\n"), maxEmbed)}}
	}
	if m.Content == "" && len(m.Embeds) == 0 {
		m.Content = "Done."
	}
	return m
}

// details are the parts of a reply after its first line, in reading order.
func details(r bot.Reply, untapped []string) []string {
	var blocks []string
	add := func(block string) {
		if block = strings.Trim(block, "\n"); block != "" {
			blocks = append(blocks, block)
		}
	}
	add(named(plain(r.Text)))
	corners := r.Corners
	if len(corners) == 0 && len(r.Remedies) > 0 {
		corners = r.Remedies[0].Corners
	}
	if table := bot.Table(corners); table != "" {
		add("```\n" + strings.TrimRight(table, "\n") + "\n```")
	}
	add(section("First check", r.First))
	if len(r.Remedies) > 1 {
		var others []string
		for _, o := range r.Remedies[1:] {
			others = append(others, o.Say)
		}
		add(section("If that is not it", others))
	}
	add(section("Notes", r.Notes))
	add(section("Assumed", r.Assumed))
	add(section("To type", untapped))
	return blocks
}

func section(name string, lines []string) string {
	if len(lines) == 0 {
		return ""
	}
	var b strings.Builder
	fmt.Fprintf(&b, "\n__%s__\n", name)
	for _, l := range lines {
		b.WriteString("- " + plain(strings.ReplaceAll(l, "\n", " ")) + "\n")
	}
	return strings.TrimRight(b.String(), "\n")
}

// shorten keeps whole lines up to n characters and says how many are missing.
func shorten(text string, n int) string {
	if length(text) <= n {
		return text
	}
	lines := strings.Split(text, "\n")
	const room = 60 // for saying so
	kept, size := 0, 0
	for kept < len(lines) && size+length(lines[kept])+1 <= n-room {
		size += length(lines[kept]) + 1
		kept++
	}
	if kept == 0 {
		return clip(text, n)
	}
	return strings.Join(lines[:kept], "\n") + fmt.Sprintf("\n… %d more lines have no room here: ask for less at once.", len(lines)-kept)
}

// attach adds the picture, with its words, and the files; it says which of
// them have no room.
func attach(m *message, r bot.Reply) (left []string) {
	add := func(f rest.File, words string) {
		if len(f.Data) > maxFile {
			left = append(left, f.Name+" is too large to send here.")
			return
		}
		m.Attachments = append(m.Attachments, attachment{ID: strconv.Itoa(len(m.files)), Filename: f.Name, Description: clip(words, maxAlt)})
		m.files = append(m.files, f)
	}
	if p := r.Picture; p != nil && len(p.PNG) > 0 {
		add(rest.File{Name: "picture.png", Kind: "image/png", Data: p.PNG}, p.Alt)
	}
	for _, f := range r.Files {
		add(rest.File{Name: f.Name, Kind: f.Type, Data: f.Data}, "")
	}
	return left
}
