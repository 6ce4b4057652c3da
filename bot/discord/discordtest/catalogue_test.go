package discordtest

import (
	"testing"

	"github.com/bwmarrin/discordgo"
)

func TestCommandsKeepTheirIDs(t *testing.T) {
	t.Parallel()
	p := New(t)
	guild := p.Guild("Apex")
	b := newBot(t, p)
	b.register(guild.ID, carCommand)
	before := p.Commands(guild)
	b.register(guild.ID, carCommand, &discordgo.ApplicationCommand{Name: "log", Description: "The log"})
	after := p.Commands(guild)
	if len(after) != 2 || after[0].ID != before[0].ID || after[1].ID == before[0].ID {
		t.Errorf("before %+v, after %+v", before, after)
	}
	if got, err := b.ApplicationCommands(p.ApplicationID(), guild.ID); err != nil || len(got) != 2 || len(got[1].Options) != 2 {
		t.Errorf("listed: %+v, %v", got, err)
	}
	if got := p.Commands(nil); len(got) != 0 {
		t.Errorf("global: %+v", got)
	}
}

// TestListedCommands sees commands come back in another order and with what the
// platform adds.
func TestListedCommands(t *testing.T) {
	t.Parallel()
	p := New(t)
	guild := p.Guild("Apex")
	b := newBot(t, p)
	b.register(guild.ID, carCommand, &discordgo.ApplicationCommand{Name: "log", Description: "The log"})
	got, err := b.ApplicationCommands(p.ApplicationID(), guild.ID)
	if err != nil || len(got) != 2 || got[0].Name != "log" || got[1].Name != "car" || got[0].Version == "" || got[0].ApplicationID != p.ApplicationID() {
		t.Errorf("%+v, %v", got, err)
	}
	if options := got[1].Options; len(options) != 2 || options[0].Name != "add" || len(options[0].Options) != 5 || len(options[0].Options[1].Choices) != 2 {
		t.Errorf("the options come back as %+v", options)
	}
}
