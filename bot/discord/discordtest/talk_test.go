package discordtest

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/bwmarrin/discordgo"
)

// TestTalk walks a plain session of the client library through a whole
// conversation: open, command, button, form, follow-up, edit, close; compressed
// and not.
func TestTalk(t *testing.T) {
	for name, compress := range map[string]bool{"compressed": true, "plain": false} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			p := New(t)
			alice := p.Guild("Apex").Member("alice")
			b := newBot(t, p)
			b.Compress, b.Identify.Compress = compress, compress
			b.on(discordgo.InteractionApplicationCommand, func(i *discordgo.Interaction) {
				add := i.ApplicationCommandData().Options[0]
				b.say(i, &discordgo.InteractionResponseData{
					Content: "Add " + add.GetOption("name").StringValue() + "?", Flags: discordgo.MessageFlagsEphemeral,
					Embeds: []*discordgo.MessageEmbed{{Title: "Grip", Image: &discordgo.MessageEmbedImage{URL: "attachment://grip.bin"}}},
					Files:  []*discordgo.File{drawing()},
					Components: []discordgo.MessageComponent{discordgo.ActionsRow{Components: []discordgo.MessageComponent{
						discordgo.Button{Label: "More", CustomID: "more"},
					}}},
				})
			})
			b.on(discordgo.InteractionMessageComponent, func(i *discordgo.Interaction) {
				if err := b.respond(i, discordgo.InteractionResponseModal, &discordgo.InteractionResponseData{
					CustomID: "form", Title: "More about the car",
					Components: []discordgo.MessageComponent{discordgo.ActionsRow{Components: []discordgo.MessageComponent{
						discordgo.TextInput{CustomID: "mass", Label: "Mass", Style: discordgo.TextInputShort, Required: true},
					}}},
				}); err != nil {
					t.Error(err)
				}
			})
			b.on(discordgo.InteractionModalSubmit, func(i *discordgo.Interaction) {
				if err := b.respond(i, discordgo.InteractionResponseDeferredMessageUpdate, nil); err != nil {
					t.Error(err)
				}
				mass := i.ModalSubmitData().Components[0].(*discordgo.ActionsRow).Components[0].(*discordgo.TextInput).Value
				content := "It weighs " + mass
				if _, err := b.InteractionResponseEdit(i, &discordgo.WebhookEdit{AllowedMentions: nobody, Content: &content}); err != nil {
					t.Error(err)
				}
				if _, err := b.FollowupMessageCreate(i, true, &discordgo.WebhookParams{AllowedMentions: nobody, Content: "Well done", Flags: discordgo.MessageFlagsEphemeral}); err != nil {
					t.Error(err)
				}
			})
			b.open()
			b.register(alice.Guild.ID, carCommand)
			p.Gateway.AwaitReady(1)

			first := alice.Type(`/car add drive:rear name:"Club racer"`)
			if first.Content() != "Add Club racer?" || !first.Private() || first.Deferred() {
				t.Errorf("first: %+v", first.Message())
			}
			if files := first.Files(); len(files) != 1 || !bytes.HasPrefix(files[0].Data, []byte("\x89PNG")) {
				t.Errorf("files: %+v", files)
			}
			form := first.Press("More").Form()
			if form.Title() != "More about the car" {
				t.Errorf("title %q", form.Title())
			}
			last := form.Fill(map[string]string{"Mass": "1250 kg"}).Submit()
			if last.Content() != "It weighs 1250 kg" || !last.Updated() || last.Message().Edits != 1 {
				t.Errorf("last: %+v", last.Message())
			}
			if more := last.AwaitFollowUps(1); len(more) != 1 || more[0].Content != "Well done" {
				t.Errorf("follow-ups: %+v", more)
			}
			if first.FirstAnswerAfter() <= 0 {
				t.Error("the time to the first answer is not kept")
			}
			if got := p.Gateway.Identifies()[0]; got.Compress != compress || got.Intents != int(discordgo.IntentsGuilds) {
				t.Errorf("identified as %+v", got)
			}
			if err := b.Close(); err != nil {
				t.Error(err)
			}
			p.Gateway.AwaitConnections(0)
		})
	}
}

// TestAutocomplete sees that a number being typed arrives as a text.
func TestAutocomplete(t *testing.T) {
	t.Parallel()
	p := New(t)
	alice := p.Guild("Apex").Member("alice")
	b := newBot(t, p)
	b.on(discordgo.InteractionApplicationCommandAutocomplete, func(i *discordgo.Interaction) {
		focused := i.ApplicationCommandData().Options[0].GetOption("clicks")
		if err := b.respond(i, discordgo.InteractionApplicationCommandAutocompleteResult, &discordgo.InteractionResponseData{
			Choices: []*discordgo.ApplicationCommandOptionChoice{{Name: "12 from " + focused.Value.(string), Value: 12}},
		}); err != nil {
			t.Error(err)
		}
	})
	b.open()
	b.register(alice.Guild.ID, carCommand)
	offered := alice.Autocomplete(`/car add name:x clicks:ha`)
	if !slices.Equal(offered, []Choice{{"12 from ha", 12.0}}) {
		t.Errorf("offered %v", offered)
	}
}

// TestTypingIsStrict sees that people cannot send what is not registered.
func TestTypingIsStrict(t *testing.T) {
	t.Parallel()
	p := New(t)
	alice := p.Guild("Apex").Member("alice")
	b := newBot(t, p)
	only := discordgo.PermissionManageGuild
	guarded := &discordgo.ApplicationCommand{Name: "club", Description: "The club", DefaultMemberPermissions: ptr(int64(only))}
	b.register(alice.Guild.ID, carCommand, guarded)
	for line, want := range map[string]string{
		`car list`:                           "does not begin with /",
		`/boat list`:                         "not registered",
		`/car`:                               "needs a subcommand",
		`/car sell`:                          "no subcommand sell",
		`/car add name:x`:                    "required option drive",
		`/car add name:x drive:both`:         "not among the choices",
		`/car add name:x drive:rear color:7`: "no option color",
		`/car add name:x name:y drive:rear`:  "given twice",
		`/car add name:x drive:rear clicks:a few`:  "after the options",
		`/car add name:x drive:rear clicks:many`:   "not the number",
		`/car add name:x drive:rear clicks:1.5`:    "not the number",
		`/car add name:x drive:rear file:none.csv`: "no file none.csv",
		`/car add name:x drive:rear member:zoe`:    "has no zoe",
		`/club`:                                    "needs the permissions",
	} {
		typed, err := readLine(line)
		if err == nil {
			p.mu.Lock()
			_, err = (&composer{p: p, by: alice, focus: -1}).compose(typed)
			p.mu.Unlock()
		}
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", line, err, want)
		}
	}
}

func ptr[T any](v T) *T { return &v }
