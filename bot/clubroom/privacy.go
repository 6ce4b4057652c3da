package clubroom

import (
	"context"

	"detent/bot"
)

func privacyCommand() bot.Command {
	return declare(bot.Command{Name: "privacy", Help: "What is kept about you, why, how long, and how to have it removed", Private: true}, showPrivacy)
}

func showPrivacy(_ context.Context, _ call, o bot.MoreOption) (bot.Reply, error) {
	return o.Paged(bot.Reply{
		Title: "What is kept about you",
		Text: "Your name here, your settings, your cars and dampers, where their clicks stand, every change of them and those you saved, the advice you got, how the car felt in your words, searches, events you entered, what coaches and organisers wrote to you, and what coaches looked at. " +
			"It is kept to answer you and to remind you, in this club's own record; no other club sees it. Your cars, log and feel are yours alone, and a coach's whom you accept.",
		Notes: []string{
			"How long: until you remove it, or thirty days after the bot was taken out of this workspace.",
			"If you take no direct messages, a reminder calls you by name in the club's channel instead; /me set reminders:off stops it.",
			"Coaches you accepted, and organisers of events you are in, may message you; /me set messages:off stops that.",
			"Answers to what changes something are kept a month, so that the same request is never done twice.",
			"Who works on it: the club's organisers run the bot and its database.",
			"What other members see: your name and the events you enter. Organisers and coaches also see which car you enter, its dampers and whether you want a sheet, never where its clicks stand. Answers about your cars are for you alone, unless you show one to the channel or share them all with /me set answers:shared.",
		},
		Actions: []bot.Action{bot.Button("Hand it all over", "/me export"), bot.Button("Remove it", "/me erase")},
	}, "/privacy"), nil
}
