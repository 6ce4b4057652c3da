package discordtest

import (
	"slices"
	"strings"
	"testing"

	"github.com/bwmarrin/discordgo"
)

// echo is a bot that answers /car list with a button and a select, and both
// with what was pressed or chosen.
func echo(t *testing.T, p *Platform) *bot {
	b := newBot(t, p)
	b.on(discordgo.InteractionApplicationCommand, func(i *discordgo.Interaction) {
		b.say(i, &discordgo.InteractionResponseData{
			Content: "Cars of <@1>",
			Components: []discordgo.MessageComponent{
				discordgo.ActionsRow{Components: []discordgo.MessageComponent{
					discordgo.Button{Label: "Again", CustomID: "again"},
					discordgo.Button{Label: "Not now", CustomID: "never", Disabled: true},
				}},
				discordgo.ActionsRow{Components: []discordgo.MessageComponent{discordgo.SelectMenu{
					CustomID: "pick", Placeholder: "Which car?",
					Options: []discordgo.SelectMenuOption{{Label: "Club racer", Value: "1"}, {Label: "Winter car", Value: "2"}},
				}}},
			},
		})
	})
	b.on(discordgo.InteractionMessageComponent, func(i *discordgo.Interaction) {
		who := i.User
		if i.Member != nil {
			who = i.Member.User
		}
		data := i.MessageComponentData()
		b.say(i, &discordgo.InteractionResponseData{Content: who.Username + " " + data.CustomID + strings.Join(data.Values, ","), Flags: discordgo.MessageFlagsEphemeral})
	})
	b.open()
	b.register("", carCommand)
	return b
}

func TestPeople(t *testing.T) {
	t.Parallel()
	p := New(t)
	guild := p.Guild("Apex")
	alice, bob := guild.Member("alice"), guild.Member("bob")
	b := echo(t, p)

	list := alice.In("pits").Type("/car list")
	if got := list.Buttons(); !slices.Equal(got, []string{"Again"}) {
		t.Errorf("buttons %q", got)
	}
	if got := list.Message().Pings; len(got) != 0 {
		t.Errorf("pings %q", got)
	}
	if got := guild.Channel("pits").Messages(); len(got) != 1 || got[0].Content != list.Content() {
		t.Errorf("in the channel: %+v", got)
	}
	if got := list.Choose("Which car?", "Winter car").Content(); got != "alice pick2" {
		t.Errorf("chosen: %q", got)
	}
	pressed := bob.Press(list.Message(), "Again")
	if pressed.Content() != "bob again" || !pressed.Private() {
		t.Errorf("pressed: %+v", pressed.Message())
	}
	if got := guild.Channel("pits").Messages(); len(got) != 1 {
		t.Errorf("a private reply is seen by all: %+v", got)
	}
	if got := alice.Directly().Type("/car list").Press("Again").Content(); got != "alice again" {
		t.Errorf("in direct messages: %q", got)
	}

	channel, err := b.UserChannelCreate(bob.ID)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := b.ChannelMessageSendComplex(channel.ID, &discordgo.MessageSend{
		Content:         "Tomorrow, <@" + bob.ID + ">",
		AllowedMentions: &discordgo.MessageAllowedMentions{Parse: nobody.Parse, Users: []string{bob.ID}},
		Components: []discordgo.MessageComponent{discordgo.ActionsRow{Components: []discordgo.MessageComponent{
			discordgo.Button{Label: "Noted", CustomID: "noted"},
		}}},
	}); err != nil {
		t.Fatal(err)
	}
	direct := bob.Inbox().Await(1)[0]
	if !slices.Equal(direct.Pings, []string{bob.ID}) {
		t.Errorf("pings %q", direct.Pings)
	}
	if got := direct.Press("Noted").Content(); got != "bob noted" {
		t.Errorf("pressed in a direct message: %q", got)
	}
}

// TestStrange sees the library hand over, without data, what it cannot decode.
func TestStrange(t *testing.T) {
	t.Parallel()
	p := New(t)
	alice := p.Guild("Apex").Member("alice")
	b := newBot(t, p)
	b.on(discordgo.InteractionModalSubmit, func(i *discordgo.Interaction) {
		if i.Data != nil {
			t.Errorf("data %+v", i.Data)
		}
		b.say(i, &discordgo.InteractionResponseData{Content: "Something went wrong"})
	})
	b.open()
	if got := alice.SubmitStrange().Wait().Content(); got != "Something went wrong" {
		t.Errorf("got %q", got)
	}
}

// TestAccountThroughLibrary asks what a bot asks about itself and its guilds.
func TestAccountThroughLibrary(t *testing.T) {
	t.Parallel()
	p := New(t)
	guild := p.Guild("Apex")
	alice := guild.Member("alice", Roles("coach"), Permissions(PermManageGuild), Locale("de"))
	b := newBot(t, p)
	if me, err := b.User("@me"); err != nil || !me.Bot {
		t.Errorf("me: %+v, %v", me, err)
	}
	if app, err := b.Application("@me"); err != nil || app.ID != p.ApplicationID() {
		t.Errorf("application: %+v, %v", app, err)
	}
	if got, err := b.Guild(guild.ID); err != nil || got.Name != "Apex" {
		t.Errorf("guild: %+v, %v", got, err)
	}
	if got, err := b.UserGuilds(100, "", "", false); err != nil || len(got) != 1 || got[0].ID != guild.ID {
		t.Errorf("guilds: %+v, %v", got, err)
	}
	if got, err := b.GuildRoles(guild.ID); err != nil || !slices.ContainsFunc(got, func(r *discordgo.Role) bool { return r.ID == guild.Role("coach") }) {
		t.Errorf("roles: %+v, %v", got, err)
	}
	if got, err := b.GuildMember(guild.ID, alice.ID); err != nil || !slices.Contains(got.Roles, guild.Role("coach")) {
		t.Errorf("member: %+v, %v", got, err)
	}
	if got, err := b.Channel(guild.Channel("general").ID); err != nil || got.Name != "general" {
		t.Errorf("channel: %+v, %v", got, err)
	}
	if got, err := b.GatewayBot(); err != nil || got.Shards != 1 {
		t.Errorf("gateway: %+v, %v", got, err)
	}
}
