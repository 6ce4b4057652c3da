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
	writeRemedies(&b, r.Remedies)
	if table := bot.Table(r.Corners); table != "" {
		line("%s", table)
	}
	section(&b, "First check", r.First)
	section(&b, "Notes", r.Notes)
	section(&b, "Assumed", r.Assumed)
	section(&b, "Mind", r.Cautions)
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

func writeRemedies(b *strings.Builder, remedies []bot.Remedy) {
	for _, r := range remedies {
		fmt.Fprintf(b, "%d. %s  [%s]\n   %s Watch for %s.\n", r.Rank, r.Say, r.Confidence, r.Why, r.Watch)
		if r.Model != nil {
			fmt.Fprintf(b, "   Model %s: %s\n", r.Model.Verdict, r.Model.Say)
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
