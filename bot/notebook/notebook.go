// Package notebook answers for what a member writes down about their cars
// between one event and the next: what was on the car, and clicks under a name to
// go back to.
package notebook

import (
	"context"

	"detent/bot"
)

// record is the part of the club's book that these commands need.
type record interface {
	bot.Cars
	bot.Cases
	bot.CarSeasons
	bot.Learning
	bot.Notebook
	bot.Shelf
	bot.Advisory
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
		noteCommand(), seasonCommand(),
		saveClicksCommand(), savedClicksCommand(), loadClicksCommand(), compareClicksCommand(), copyClicksCommand(), forgetClicksCommand(),
	}
}
