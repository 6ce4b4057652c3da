package discord

import (
	"cmp"
	"context"
	"net/http"

	"detent/bot"
	"detent/bot/discord/rest"
	"detent/tuning"
)

// standing finds out what a person is in the workspace that a button in a
// direct message names. There the platform tells nothing of it with the press,
// and the message may be older than the person's leaving. Roles come with the
// same answer; what they permit comes from the workspace's own roles, so that an
// organiser is one here too. Both are kept for a minute, so who leaves may act
// for as long. A platform that does not answer in time lets nobody through.
func (b *Bot) standing(ctx context.Context, q *request) error {
	ctx, cancel := context.WithTimeout(ctx, b.pace.standing)
	defer cancel()
	if !isID(q.club) || !isID(q.person) {
		return errNotThere
	}
	m, err := b.readMember(ctx, q.club, q.person)
	var g guild
	if err == nil {
		g, err = b.readGuild(ctx, q.club)
	}
	r, refused := rest.AsRefusal(err)
	switch {
	case err == nil:
		q.roles, q.permissions, q.name = m.Roles, int64(g.permissions(q.club, q.person, m)), cmp.Or(m.Nick, q.name)
		return nil
	case refused && (r.Status == http.StatusNotFound || r.Status == http.StatusForbidden):
		return errNotThere
	}
	b.metrics.failed("standing")
	b.log.Warn("nothing is known of a member", "id", q.id, "err", err)
	return bot.Problemf(tuning.Limit, "The workspace does not tell me in time whether you are still in that club, so I did nothing: try again in a minute.")
}

var errNotThere = bot.Problemf(tuning.Forbidden, "I did nothing: you or I are not in that club's workspace any more.")

// isID tells whether a text is one of the platform's numbers, and so may stand
// in a path.
func isID(text string) bool {
	for _, r := range text {
		if r < '0' || r > '9' {
			return false
		}
	}
	return text != ""
}
