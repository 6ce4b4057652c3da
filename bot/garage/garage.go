// Package garage answers what members ask about their own cars: what the car
// is, where its clicks stand and start, what to turn, what was turned, and how
// it felt.
package garage

import (
	"context"

	"detent/bot"
)

// record is the part of the club's book that these commands need. Events are
// asked for which one a car is at, and for those a retired car leaves.
type record interface {
	bot.Garage
	bot.Diary
	bot.Advisory
	bot.Learning
	bot.Bench
	bot.Events
	bot.Entries
	bot.Timetable
	bot.Unseen
}

// call is one ask with that part of the book.
type call struct {
	bot.Call
	Book record
}

// declare joins a declaration to its handler.
func declare[O any](c bot.Command, answer func(context.Context, call, O) (bot.Reply, error)) bot.Command {
	return bot.Declare(c, func(ctx context.Context, asked bot.Call, book bot.Book, options O) (bot.Reply, error) {
		return answer(ctx, call{asked, book}, options)
	})
}

// Commands lists the room's commands in the order /help shows them.
func Commands() []bot.Command {
	return []bot.Command{
		addCarCommand(), listCarsCommand(), showCarCommand(), editCarCommand(), mainCarCommand(), retireCarCommand(),
		fitDampersCommand(), keepCurveCommand(),
		baselineCommand(), symptomCommand(), applyCommand(), whyCommand(),
		showClicksCommand(), setClicksCommand(), undoCommand(), logCommand(), learnedCommand(), feelCommand(),
		startSweepCommand(), runSweepCommand(), stopSweepCommand(),
		windowCommand(),
	}
}
