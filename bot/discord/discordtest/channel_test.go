package discordtest

import (
	"testing"

	"github.com/bwmarrin/discordgo"
)

// TestMessagesThroughLibrary sends, edits, fetches and deletes a channel's
// message as the library does, with all that it cannot leave out.
func TestMessagesThroughLibrary(t *testing.T) {
	t.Parallel()
	p := New(t)
	general := p.Guild("Apex").Channel("general")
	b := newBot(t, p)
	sent, err := b.ChannelMessageSendComplex(general.ID, &discordgo.MessageSend{AllowedMentions: nobody, Content: "x", Files: []*discordgo.File{drawing()}})
	if err != nil {
		t.Fatal(err)
	}
	content := "y"
	if _, err := b.ChannelMessageEditComplex(&discordgo.MessageEdit{AllowedMentions: nobody, Channel: general.ID, ID: sent.ID, Content: &content, Attachments: &[]*discordgo.MessageAttachment{}}); err != nil {
		t.Fatal(err)
	}
	got, err := b.ChannelMessage(general.ID, sent.ID)
	if err != nil || got.Content != "y" || len(got.Attachments) != 0 || got.EditedTimestamp == nil {
		t.Errorf("edited: %+v, %v", got, err)
	}
	if err := b.ChannelMessageDelete(general.ID, sent.ID); err != nil {
		t.Error(err)
	}
	if left := general.Messages(); len(left) != 0 {
		t.Errorf("deleted: %+v", left)
	}
	p.Forget()
	if left := p.Requests(AnyRoute); len(left) != 0 {
		t.Errorf("forgotten: %+v", left)
	}
}
