package discord

import (
	"errors"
	"slices"
	"testing"

	"github.com/bwmarrin/discordgo"

	"detent/bot"
	"detent/bot/discord/discordtest"
	"detent/bot/discord/rest"
)

// TestPostingIsLookedAtFirst finds what is missing in a channel before anything
// is sent there, and posts when nothing is.
func TestPostingIsLookedAtFirst(t *testing.T) {
	t.Parallel()
	guide := bot.Reply{Title: "Guide", Files: []bot.File{{Name: "guide.pdf", Type: "application/pdf", Data: []byte("x")}}}
	for name, test := range map[string]struct {
		denied  uint64
		missing []string
	}{
		"nothing":              {0, nil},
		"what is not needed":   {discordtest.PermEmbed, nil},
		"seeing it":            {discordtest.PermView, []string{"View Channel"}},
		"writing":              {discordtest.PermSend, []string{"Send Messages"}},
		"files":                {discordtest.PermAttach, []string{"Attach Files"}},
		"writing and all else": {discordtest.PermSend | discordtest.PermAttach, []string{"Send Messages", "Attach Files"}},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			w := newAdapterClub(t)
			general := w.club.Channel("general").Deny(test.denied)
			err := w.bot.Post(t.Context(), "<#"+general.ID+">", guide, "guide-1")
			none, refused := errors.AsType[*NoAccess](err)
			if refused != (test.missing != nil) || refused && !slices.Equal(none.Missing, test.missing) {
				t.Errorf("it says %v, want %q missing", err, test.missing)
			}
			if refused && (none.Channel != general.ID || !errors.Is(err, ErrNoAccess)) {
				t.Errorf("it is no refusal of the channel: %+v", none)
			}
			if posted := len(w.Requests(discordtest.PostMessage)); (posted == 0) != refused {
				t.Errorf("%d messages are sent", posted)
			}
		})
	}
}

// TestPostingInThreads asks for what threads need, of the channel that they
// hang on.
func TestPostingInThreads(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t, invited(Invitation{Threads: true}))
	general := w.club.Channel("general").ReadOnly()
	thread := general.Thread("spring day")
	if err := w.bot.Post(t.Context(), thread.ID, bot.Reply{Title: "Guide"}, "1"); err != nil || len(thread.Messages()) != 1 {
		t.Errorf("it is not posted: %v", err)
	}
	general.Deny(discordtest.PermInThreads)
	none, _ := errors.AsType[*NoAccess](w.bot.Post(t.Context(), thread.ID, bot.Reply{Title: "Guide"}, "2"))
	if none == nil || !slices.Equal(none.Missing, []string{"Send Messages in Threads"}) {
		t.Errorf("what is missing: %+v", none)
	}
}

// TestPostingWithoutAnAnswer posts all the same where the platform does not say
// what the bot may do, and learns from posting.
func TestPostingWithoutAnAnswer(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t)
	general := w.club.Channel("general")
	w.Break(discordtest.GetChannel, discordtest.Times(rest.Attempts, discordtest.Status(500))...)
	if err := w.bot.Post(t.Context(), general.ID, bot.Reply{Title: "Guide"}, "1"); err != nil || len(general.Messages()) != 1 {
		t.Errorf("it is not posted: %v", err)
	}
	w.Break(discordtest.GetChannel, discordtest.Times(rest.Attempts, discordtest.Status(500))...)
	general.ReadOnly()
	none, ok := errors.AsType[*NoAccess](w.bot.Post(t.Context(), general.ID, bot.Reply{Title: "Guide"}, "2"))
	if !ok || none.Gone || none.Missing != nil || none.Error() == "" {
		t.Errorf("refused at posting: %+v", none)
	}
	if none, ok := errors.AsType[*NoAccess](w.bot.Post(t.Context(), "42", bot.Reply{Title: "Guide"}, "3")); !ok || !none.Gone {
		t.Errorf("a channel that is gone: %+v", none)
	}
}

// TestExceptions applies a channel's exceptions in the platform's order.
func TestExceptions(t *testing.T) {
	t.Parallel()
	const view, send = discordgo.PermissionViewChannel, discordgo.PermissionSendMessages
	m := member{Roles: []string{"role", "other"}}
	for name, test := range map[string]struct {
		has        bits
		exceptions []exception
		want       bits
	}{
		"none":                  {view | send, nil, view | send},
		"everybody":             {view | send, []exception{{ID: "guild", Deny: send}}, view},
		"a role over it":        {view, []exception{{ID: "role", Allow: send}, {ID: "guild", Deny: send}}, view | send},
		"roles together":        {view, []exception{{ID: "role", Deny: send}, {ID: "other", Allow: send}}, view | send},
		"the person over all":   {view | send, []exception{{ID: "me", Type: toOne, Deny: send}, {ID: "role", Allow: send}}, view},
		"others":                {view | send, []exception{{ID: "nobody", Deny: send}, {ID: "you", Type: toOne, Deny: send}}, view | send},
		"a person by a role":    {view | send, []exception{{ID: "me", Deny: send}}, view | send},
		"not of administrators": {allPermissions, []exception{{ID: "guild", Deny: view}}, allPermissions},
	} {
		if got := (channel{Guild: "guild", Exceptions: test.exceptions}).except(test.has, "me", m); got != test.want {
			t.Errorf("%s: %b, want %b", name, got, test.want)
		}
	}
}
