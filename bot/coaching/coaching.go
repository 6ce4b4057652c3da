// Package coaching answers coaches and their students: who coaches whom, what a
// coach sees, writes and suggests, and what the student does with it.
package coaching

import (
	"context"

	"detent/bot"
)

// record is the part of the club's book that these commands need.
type record interface {
	bot.Cars
	bot.Cases
	bot.Log
	bot.Learning
	bot.Coaches
	WeekBook
	bot.Members
	bot.Events
	bot.Timetable
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
		askCommand(), acceptCommand(), endCommand(), studentsCommand(), leaveNoteCommand(), suggestCommand(),
		readNotesCommand(), declineCommand(), seenCommand(), weekCommand(),
	}
}

// memberOption names the other side of a coaching.
type memberOption struct {
	Member string `name:"member" help:"the member's name" required:"yes" source:"members"`
}
