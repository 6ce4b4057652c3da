// Package season answers about the club's events: planning them, entering cars,
// the guide and the sheets to print, and what came of it.
package season

import (
	"context"

	"detent/bot"
)

// record is the part of the club's book that these commands need.
type record interface {
	bot.Cars
	bot.Cases
	bot.Season
	bot.ClubSeasons
	bot.Timetable
	bot.Tellings
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
		addEventCommand(), copyEventCommand(), listEventsCommand(), showEventCommand(), editEventCommand(), cancelEventCommand(),
		enterEventCommand(), leaveEventCommand(), listEntrantsCommand(), tellEntrantsCommand(), tellPlaceCommand(),
		postGuideCommand(), summariseCommand(), giveSheetCommand(), printSheetsCommand(), clubSeasonCommand(),
	}
}

// eventOption names the event that a line is about.
type eventOption struct {
	Name string `name:"name" help:"the event; the one under way or the next when not said" source:"events"`
}
