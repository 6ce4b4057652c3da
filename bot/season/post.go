package season

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"time"

	"detent/bot"
	"detent/tuning"
)

func postGuideCommand() bot.Command {
	return declare(bot.Command{Name: "event guide", Help: "Post the guide of an event: where to start, and the symptom card",
		Role: tuning.OrganiserRole, Writes: true}, postGuide)
}

type guideOptions struct {
	eventOption
	Again bool `name:"again" help:"post it though it has not changed" choices:"yes"`
}

func postGuide(ctx context.Context, call call, o guideOptions) (bot.Reply, error) {
	e, entrants, err := call.openEvent(ctx, o.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	if len(entrants) == 0 {
		return bot.Reply{}, bot.Problemf(tuning.Invalid, "Nobody has entered %s yet: the guide is made from the cars that come.", e.Name)
	}
	reply, err := guideOf(e, entrants, call.Club).reply(call.Now())
	if err != nil {
		return bot.Reply{}, err
	}
	if hashGuide(reply) == e.GuideHash && !o.Again {
		return bot.Reply{Title: "The guide of " + e.Name + " has not changed since it was posted", Text: "It is posted again only when it has.",
			Actions: []bot.Action{bot.Button("Post it again", "/event guide again:yes", bot.OfEvent(e))}}, nil
	}
	e.GuideHash = hashGuide(reply)
	_, err = call.Book.SaveEvent(ctx, e)
	return reply, err
}

// GuideBook is what the guide of an event is made from.
type GuideBook interface {
	Club(ctx context.Context) (tuning.Club, error)
	bot.Events
}

// Guide is the guide of an event to come, for posting by itself, and what
// tells it from another. That is "" when there is nothing to post: it is as it
// was last posted, or nobody has entered.
func Guide(ctx context.Context, book GuideBook, event int64, now time.Time) (guide bot.Reply, hashed string, err error) {
	club, err := book.Club(ctx)
	if err != nil {
		return bot.Reply{}, "", err
	}
	events, err := book.Events(ctx, now)
	if err != nil {
		return bot.Reply{}, "", err
	}
	i := slices.IndexFunc(events, func(e tuning.Event) bool { return e.ID == event && !e.Cancelled })
	if i < 0 {
		return bot.Reply{}, "", nil
	}
	entrants, err := book.Entrants(ctx, events[i])
	if err != nil || len(entrants) == 0 {
		return bot.Reply{}, "", err
	}
	if guide, err = guideOf(events[i], entrants, club).reply(now); err != nil || hashGuide(guide) == events[i].GuideHash {
		return bot.Reply{}, "", err
	}
	return guide, hashGuide(guide), nil
}

// hashGuide tells a guide from one that says something else.
func hashGuide(r bot.Reply) string {
	sum := sha256.New()
	for _, part := range [][]string{{r.Title, r.Text, r.View.Grid}, r.First, r.Notes, r.Cautions} {
		fmt.Fprintf(sum, "%q\n", part)
	}
	return hex.EncodeToString(sum.Sum(nil)[:8])
}
