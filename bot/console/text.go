package console

import (
	"fmt"
	"strings"

	"detent/bot"
)

// Text is a reply as plain text: the action first, then the details.
func Text(r bot.Reply) string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	line("%s", r.Title)
	if r.Text != "" {
		line("%s", r.Text)
	}
	writeRemedies(&b, r)
	if table := bot.Table(r.Corners); table != "" {
		line("%s", table)
	}
	section(&b, "First check", r.First)
	section(&b, "Notes", r.Notes)
	section(&b, "Assumed", r.Assumed)
	section(&b, "Take care", r.Cautions)
	if r.Picture != nil {
		line("Picture: %s (%s)", r.Picture.File, r.Picture.Alt)
	}
	for _, f := range r.Files {
		line("File: %s", f.File)
	}
	for _, a := range r.Actions {
		line("  %s:  %s", a.Label, a.Ask)
	}
	return b.String() + "\n"
}

// writeRemedies writes the remedies after the first, which the reply's first
// lines have said already, unless they say something else.
func writeRemedies(b *strings.Builder, r bot.Reply) {
	for _, remedy := range r.Remedies {
		if remedy.Say == r.Title {
			continue
		}
		fmt.Fprintf(b, "%d. %s  [%s]\n   %s Watch for %s.\n", remedy.Rank, remedy.Say, remedy.Confidence, remedy.Why, remedy.Watch)
		if remedy.Model != nil {
			fmt.Fprintf(b, "   Model %s: %s\n", remedy.Model.Verdict, remedy.Model.Say)
		}
	}
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
