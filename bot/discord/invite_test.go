package discord

import (
	"slices"
	"testing"

	"detent/bot"
	"detent/bot/discord/discordtest"
)

// The address asks for what the code uses, by number and by name, and what it
// asks for is enough to post with a file, in a channel or a thread, and to write
// to one person.
func TestInvitation(t *testing.T) {
	t.Parallel()
	i := Invitation{Application: "1152921504606846977"}
	if want := "https://discord.com/oauth2/authorize?client_id=1152921504606846977&scope=bot%20applications.commands&permissions=35840"; i.Address() != want {
		t.Errorf("the address is %s", i.Address())
	}
	if want := []string{"View Channel", "Send Messages", "Attach Files"}; !slices.Equal(i.Names(), want) {
		t.Errorf("it asks for %q", i.Names())
	}
	for _, threads := range []bool{false, true} {
		w := newAdapterClub(t, discordtest.WithInvitation(0))
		place := w.Invite("Windy Hill", Invitation{w.ApplicationID(), threads}.Address()).Channel("general")
		if threads {
			place = place.Thread("spring day")
		}
		guide := bot.Reply{Title: "Guide", Files: []bot.File{{Name: "guide.pdf", Type: "application/pdf", Data: []byte("x")}}}
		if err := w.bot.Post(t.Context(), place.ID, guide, "1"); err != nil {
			t.Errorf("threads %v: it is not posted: %v", threads, err)
		}
		if err := w.bot.Direct(t.Context(), clubKey(w.club.ID), w.alice.ID, bot.Reply{Title: "Hello"}, "2"); err != nil {
			t.Errorf("threads %v: it is not sent: %v", threads, err)
		}
	}
}
