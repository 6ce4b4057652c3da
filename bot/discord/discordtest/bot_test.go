package discordtest

import (
	"bytes"
	"testing"

	"github.com/bwmarrin/discordgo"
)

// bot is a small bot on the client library that the adapter uses, to see that
// the stand-in and the library understand each other.
type bot struct {
	*discordgo.Session
	tb testing.TB
	p  *Platform
}

func newBot(tb testing.TB, p *Platform) *bot {
	session, err := discordgo.New("Bot " + p.Token())
	if err != nil {
		tb.Fatal(err)
	}
	session.Client = p.Client()
	session.StateEnabled = false
	session.Identify.Intents = discordgo.IntentsGuilds
	session.LogLevel = -1 // what the tests provoke is not worth a line
	return &bot{Session: session, tb: tb, p: p}
}

// open connects, and closes with the test. The library takes a second to close
// after it has said so, which is not waited for.
func (b *bot) open() *bot {
	b.tb.Helper()
	if err := b.Open(); err != nil {
		b.tb.Fatal(err)
	}
	b.tb.Cleanup(func() {
		go b.Close()
		b.p.Gateway.AwaitConnections(0)
	})
	return b
}

// on answers interactions of a kind.
func (b *bot) on(kind discordgo.InteractionType, answer func(*discordgo.Interaction)) *bot {
	b.AddHandler(func(_ *discordgo.Session, i *discordgo.InteractionCreate) {
		if i.Type == kind {
			answer(i.Interaction)
		}
	})
	return b
}

func (b *bot) register(guild string, commands ...*discordgo.ApplicationCommand) {
	b.tb.Helper()
	if _, err := b.ApplicationCommandBulkOverwrite(b.p.ApplicationID(), guild, commands); err != nil {
		b.tb.Fatal(err)
	}
}

// respond gives a first answer and returns the platform's error.
func (b *bot) respond(i *discordgo.Interaction, kind discordgo.InteractionResponseType, data *discordgo.InteractionResponseData) error {
	return b.InteractionRespond(i, &discordgo.InteractionResponse{Type: kind, Data: data})
}

// nobody is whom messages notify.
var nobody = &discordgo.MessageAllowedMentions{Parse: []discordgo.AllowedMentionType{}}

// say answers with a message that notifies nobody, and fails the test if it is
// refused.
func (b *bot) say(i *discordgo.Interaction, data *discordgo.InteractionResponseData) {
	data.AllowedMentions = nobody
	if err := b.respond(i, discordgo.InteractionResponseChannelMessageWithSource, data); err != nil {
		b.tb.Errorf("answering: %v", err)
	}
}

// carCommand is a command with a subcommand, options of several types, choices
// and autocompletion, as the library sends it.
var carCommand = &discordgo.ApplicationCommand{
	Name: "car", Description: "Your cars", Options: []*discordgo.ApplicationCommandOption{
		{Type: discordgo.ApplicationCommandOptionSubCommand, Name: "add", Description: "Enter a car", Options: []*discordgo.ApplicationCommandOption{
			{Type: discordgo.ApplicationCommandOptionString, Name: "name", Description: "What you call it", Required: true},
			{Type: discordgo.ApplicationCommandOptionString, Name: "drive", Description: "Driven wheels", Required: true,
				Choices: []*discordgo.ApplicationCommandOptionChoice{{Name: "front wheels", Value: "front"}, {Name: "rear wheels", Value: "rear"}}},
			{Type: discordgo.ApplicationCommandOptionInteger, Name: "clicks", Description: "Clicks", Autocomplete: true},
			{Type: discordgo.ApplicationCommandOptionAttachment, Name: "file", Description: "A table"},
			{Type: discordgo.ApplicationCommandOptionUser, Name: "member", Description: "For whom"},
		}},
		{Type: discordgo.ApplicationCommandOptionSubCommand, Name: "list", Description: "Show your cars"},
	},
}

// drawing is a picture by its content alone: the library cannot send the alt
// text that one by its name needs.
func drawing() *discordgo.File {
	return &discordgo.File{Name: "grip.bin", ContentType: "application/octet-stream", Reader: bytes.NewReader([]byte("\x89PNG picture"))}
}
