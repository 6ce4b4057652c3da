package main

import (
	"log/slog"
	"strings"
	"testing"
	"time"
	"unicode"

	"detent/bot"
	"detent/store/storetest"
	"detent/tuning"
)

// TestRefusalsEchoLittle asks every command with every option too long to be
// anything and full of characters that no reply may carry: what a refusal
// repeats of it is short and clean, whichever room refuses.
func TestRefusalsEchoLittle(t *testing.T) {
	t.Parallel()
	router := bot.NewRouter(lines, records{storetest.New(t)}, slog.New(slog.NewTextHandler(t.Output(), nil)))
	olga := tuning.Who{Club: "Windy Hill", Person: "olga", Name: "Olga", Role: tuning.OrganiserRole}
	ask := func(line bot.Line) bot.Reply {
		return router.Answer(t.Context(), bot.Ask{ID: newID(), Who: olga, At: time.Date(2026, time.May, 1, 9, 0, 0, 0, time.UTC), Line: line})
	}
	for _, ready := range []string{`/car add name:"Blue hatch" drive:front engine:front`, `/damper fit axle:both ways:two clicks:30 count:hard`,
		`/event add name:"Spring day" starts:"2026-05-16 09:00" ends:"2026-05-16 17:00"`} {
		line, err := bot.ParseLine(ready)
		if err != nil {
			t.Fatal(err)
		}
		if r := ask(line); r.Problem != nil {
			t.Fatal(r.Title)
		}
	}
	const most = 60 // characters of what was typed
	junk := strings.Repeat("x", 2*most) + "\x07\u202e" + strings.Repeat("y", 2*most)
	refused := 0
	for _, command := range lines.Commands() {
		for _, option := range command.Options {
			line := bot.Line{Words: strings.Fields(command.Name), Options: []bot.Given{{Name: option.Name, Value: junk}}}
			for _, other := range command.Options {
				if other.Required && other.Name != option.Name {
					line.Options = append(line.Options, bot.Given{Name: other.Name, Value: plausible(other)})
				}
			}
			reply := ask(line)
			if reply.Problem == nil {
				continue
			}
			refused++
			for _, shown := range []string{reply.Title, reply.Text, reply.Problem.Say} {
				if strings.Contains(shown, strings.Repeat("x", most)) || strings.Contains(shown, "yyy") {
					t.Errorf("/%s %s repeats too much: %s", command.Name, option.Name, shown)
				}
				if i := strings.IndexFunc(shown, func(r rune) bool { return r != '\n' && (unicode.IsControl(r) || unicode.Is(unicode.Cf, r)) }); i >= 0 {
					t.Errorf("/%s %s carries %q", command.Name, option.Name, shown[i:])
				}
			}
		}
	}
	if refused < 100 {
		t.Errorf("only %d asks were refused", refused)
	}
}

// plausible is a value that an option takes, so that another is what is refused.
func plausible(o bot.Option) string {
	if len(o.Choices) > 0 {
		return o.Choices[0]
	}
	return "3"
}
