package discord

import (
	"context"

	"detent/bot"
)

// An answer about somebody's own car is for them alone. The button below it
// shows the channel the same words; which those are the platform sends along
// with the press, so nothing is kept and nothing can be shown but what stands
// there.

// showToAll is the button, and the custom id that it carries.
var showToAll = bot.Action{Label: "Show the channel", Ask: "/show"}

// offerShowing has that button added to an answer that nobody else sees.
func (t *turn) offerShowing(r bot.Reply, hidden bool) bot.Reply {
	command, known := t.b.config.Lines.Lookup(t.line)
	r.View.Show = hidden && known && command.Own && t.vouched && r.Problem == nil
	return r
}

// showChannel posts the words of the message that was pressed on for all, under
// the person's name. It calls nobody and has no buttons.
func (t *turn) showChannel(ctx context.Context) {
	if !t.vouched || t.pressed.content == "" {
		t.refuse("I cannot show that here: ask again in your club's workspace.", "unread")
		return
	}
	if !t.b.seen.first("shown "+t.pressed.id, t.b.config.Now()) {
		t.refuse("The channel has it already.", "doubled")
		return
	}
	m := message{Components: []component{}, Mentions: mentions{Parse: []string{}}}
	m.Content = clip(plain(clip(t.name, maxHeading))+" shows:\n"+t.pressed.content, maxContent)
	t.give(ctx, response{Type: messageAnswer, Data: m}, "answered")
}

// shares tells whether the person's answers are for all. An answer stays
// private when that cannot be looked up in time.
func (t *turn) shares(ctx context.Context) bool {
	ctx, cancel := context.WithTimeout(ctx, t.b.pace.privacy)
	defer cancel()
	shares, err := t.b.clubs.Shares(ctx, clubKey(t.club), t.person)
	return err == nil && shares
}
