package bot_test

import (
	"context"
	"log/slog"
	"strings"
	"testing"

	"detent/bot"
	"detent/tuning"
)

// A command may have another line answered in place of its own, and what the
// person may not ask it may not either.
func TestInstead(t *testing.T) {
	type lineOption struct {
		Line string `name:"line" help:"what to ask"`
	}
	router := bot.NewRouter(bot.NewCatalogue([]bot.Command{
		bot.Declare(bot.Command{Name: "ask", Help: "Ask another line", Private: true},
			func(ctx context.Context, call bot.Call, _ bot.Book, o lineOption) (bot.Reply, error) {
				return call.Instead(ctx, o.Line)
			}),
		bot.Declare(bot.Command{Name: "look", Help: "Look"},
			func(_ context.Context, call bot.Call, _ bot.Book, o gripOption) (bot.Reply, error) {
				return bot.Reply{Title: call.Ask.Line.String()}, nil
			}),
		bot.Declare(bot.Command{Name: "plan", Help: "Plan", Role: tuning.OrganiserRole},
			func(context.Context, bot.Call, bot.Book, gripOption) (bot.Reply, error) {
				return bot.Reply{Title: "planned"}, nil
			}),
	}), &ledger{}, slog.New(slog.DiscardHandler))
	for line, want := range map[string]string{
		"/look grip:7": "/look grip:7", "/plan": "/plan is for the club's organisers", "look": "Start with a slash", "/dance": "I do not know /dance",
	} {
		asked := bot.Line{Words: []string{"ask"}, Options: []bot.Given{{Name: "line", Value: line}}}
		r := router.Answer(t.Context(), bot.Ask{Line: asked, Who: tuning.Who{Role: tuning.MemberRole}})
		if !strings.HasPrefix(r.Title, want) || !r.Private {
			t.Errorf("%s: %q, private %v", line, r.Title, r.Private)
		}
	}
}
