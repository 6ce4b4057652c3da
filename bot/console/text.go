package console

import (
	"fmt"
	"strings"

	"detent/bot"
)

// Text is the message that a person sees of a reply, with the line behind each
// of its buttons.
func Text(r bot.Reply) string {
	m := r.Message()
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	if words := m.Words(); words != "" {
		line("%s", words)
	}
	if m.Picture != nil {
		line("Picture: %s", m.Picture.File)
	}
	for _, f := range m.Files {
		line("File: %s", f.File)
	}
	for _, a := range m.Actions {
		line("[%s]  %s", a.Label, a.Ask)
	}
	return b.String() + "\n"
}

// Full is a reply with all that its message leaves behind buttons.
func Full(r bot.Reply) string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	b.WriteString(strings.TrimSuffix(Text(r), "\n"))
	for _, remedy := range r.Remedies {
		watch := ""
		if remedy.Watch != "" {
			watch = " Watch for " + remedy.Watch + "."
		}
		line("%d. %s  [%s]\n   %s%s", remedy.Rank, remedy.Say, remedy.Confidence, remedy.Why, watch)
		if remedy.Model != nil {
			line("   Model %s: %s", remedy.Model.Verdict, remedy.Model.Say)
		}
	}
	if table := bot.Table(r.Corners); table != "" && len(r.View.Moves) > 0 {
		line("%s", table)
	}
	section(&b, "First check", r.First)
	section(&b, "Notes", r.Notes)
	section(&b, "Assumed", r.Assumed)
	section(&b, "Cautions", r.Cautions)
	if r.Picture != nil {
		line("Picture: %s (%s)", r.Picture.File, r.Picture.Alt)
	}
	return b.String() + "\n"
}

func section(b *strings.Builder, name string, lines []string) {
	if len(lines) == 0 {
		return
	}
	fmt.Fprintf(b, "%s:\n", name)
	for _, l := range lines {
		fmt.Fprintf(b, "  - %s\n", l)
	}
}
