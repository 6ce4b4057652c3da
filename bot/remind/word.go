package remind

import (
	"fmt"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

// These letters bring what somebody wrote. They are nothing for others to read.

var noMessages = bot.Action{Label: "No more messages", Ask: "/me set messages:off"}

// readNotes is what a student reads all that coaches put to them with.
const readNotes = "/coach notes"

// stopLine tells a student once how to stop such messages.
const stopLine = "Your coach's notes come as messages now; /me set messages:off stops them."

// coachWord is a coach's note or suggestion.
func coachWord(word tuning.CoachWord) letter {
	if word.Suggested != nil {
		return suggestion(word, *word.Suggested)
	}
	return letter{direct: fromCoach(bot.Reply{
		Title: "A note from " + word.CoachName, Text: say.Words(word.Note),
		Actions: []bot.Action{bot.Button("Read", readNotes), noMessages},
	}, word)}
}

// suggestion names clicks to turn, so it carries the cautions.
func suggestion(word tuning.CoachWord, given tuning.Given) letter {
	if len(given.Advice.Remedies) == 0 {
		return letter{empty: true}
	}
	car, remedy := given.Car, given.Advice.Remedies[0]
	reply := bot.Reply{
		Title:    fmt.Sprintf("%s suggests for %s: %s", word.CoachName, car.Name, say.Turns(car, remedy.Moves)),
		Text:     say.Words(string(remedy.Why)),
		Cautions: say.Cautions(tuning.BaselineCautions(car, remedy.Moves)),
		Actions: []bot.Action{bot.Button("Look", readNotes), bot.Button("Done", bot.ApplyLine(given.Advice.ID, 1)),
			bot.Button("Decline", fmt.Sprintf("/coach decline advice:%d", given.Advice.ID)), noMessages},
	}
	reply.View = bot.View{Moves: bot.Moving(bot.CornersOf(car, remedy.Moves)), Care: bot.CareFor(car, remedy.Moves)}
	return letter{direct: fromCoach(reply, word)}
}

// fromCoach gives a letter its size, and says in the first one how to stop them.
func fromCoach(reply bot.Reply, word tuning.CoachWord) bot.Reply {
	reply.View.Size = phone.List
	if !word.Told {
		reply.View.Line = stopLine
	}
	return reply
}

// eventMessage is what an organiser tells those who are in an event.
func eventMessage(o calendar.Occasion) letter {
	told := bot.Reply{
		Title: fmt.Sprintf("%s: message from %s", o.Event.Name, o.Message.SenderName), Text: say.Words(o.Message.Text),
		Actions: []bot.Action{bot.Button("The event", "/event show", bot.OfEvent(o.Event)), noMessages},
		View:    bot.View{Size: phone.List},
	}
	if o.Message.Cancels {
		told.Title = o.Event.Name + " is cancelled"
		told.Text = fmt.Sprintf("%s called it off. It was planned for %s.\n%s", o.Message.SenderName, say.Time(o.Event.Starts, calendar.ClubZone(o.Club)), told.Text)
	}
	return letter{direct: told}
}
