package discordtest

import (
	"sync"
	"testing"

	"github.com/bwmarrin/discordgo"
)

// BenchmarkType measures what the stand-in itself costs, so that a figure of
// the bot's can be told apart from it.
func BenchmarkType(b *testing.B) {
	p := New(b)
	alice := p.Guild("Apex").Member("alice")
	session := newBot(b, p)
	session.on(discordgo.InteractionApplicationCommand, func(i *discordgo.Interaction) {
		session.say(i, &discordgo.InteractionResponseData{Content: "Here", Embeds: []*discordgo.MessageEmbed{{Title: "Cars"}}})
	})
	session.open()
	session.register("", carCommand)
	for b.Loop() {
		var crowd sync.WaitGroup
		for range 8 {
			crowd.Go(func() { alice.Type("/car list") })
		}
		crowd.Wait()
	}
}
