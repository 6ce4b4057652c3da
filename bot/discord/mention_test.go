package discord

import (
	"context"
	"testing"

	"detent/bot"
)

func TestUnmention(t *testing.T) {
	type options struct {
		Member string `name:"member" help:"who" source:"members"`
		And    string `name:"and" help:"who else" source:"people"`
		Text   string `name:"text" help:"words"`
	}
	lines := bot.NewCatalogue([]bot.Command{bot.Declare(bot.Command{Name: "say", Help: "Say something"},
		func(context.Context, bot.Call, bot.Book, options) (bot.Reply, error) { return bot.Reply{}, nil })})
	for typed, want := range map[string]string{
		`/say member:<@115292150460684697> text:"<@115292150460684697> said"`:  `/say member:115292150460684697 text:"<@115292150460684697> said"`,
		`/say member:Robin and:"<@!115292150460684697> <@115292150460684698>"`: `/say member:Robin and:"115292150460684697, ,115292150460684698"`,
		`/say member:"Robin <3" and:"Sam, <@115292150460684697>"`:              `/say member:"Robin <3" and:"Sam, ,115292150460684697"`,
		`/nothing member:<@115292150460684697>`:                                `/nothing member:<@115292150460684697>`,
	} {
		line, err := bot.ParseLine(typed)
		if err != nil {
			t.Fatal(err)
		}
		if got := unmention(lines, line).String(); got != want {
			t.Errorf("%s becomes %s, want %s", typed, got, want)
		}
	}
}
