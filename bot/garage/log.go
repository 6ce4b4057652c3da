package garage

import (
	"context"
	"fmt"
	"strings"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
)

func logCommand() bot.Command {
	return declare(bot.Command{Name: "log", Help: "What was changed, felt and noted, newest first", Private: true}, showLog)
}

type logOptions struct {
	bot.CarOption
	Page int `name:"page" help:"which page, 1 is the newest" min:"1" max:"100000"`
	bot.MoreOption
}

func showLog(ctx context.Context, call call, o logOptions) (bot.Reply, error) {
	car, err := call.FindCar(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	page := max(1, o.Page)
	entries, more, err := call.Book.Log(ctx, car, page)
	if err != nil {
		return bot.Reply{}, err
	}
	if len(entries) == 0 && page > 1 {
		return bot.Reply{}, bot.Problemf(tuning.NotFound, "The log of %s has no page %d: try a smaller number.", car.Name, page)
	}
	reply := bot.Reply{Title: "Log of " + car.Name, Text: "Nothing changed and nothing noted yet."}
	zone := call.Zone()
	var lines []string
	for _, e := range entries {
		lines = append(lines, say.LogEntry(car, e, zone, call.Owner(), call.Imperial()))
	}
	if len(lines) > 0 {
		reply.Text = strings.Join(lines, "\n")
	}
	if more {
		reply.Actions = []bot.Action{bot.Button("Older", fmt.Sprintf("/log page:%d", page+1), bot.OfCar(car))}
	}
	reply.Actions = append(reply.Actions, bot.Button("Note pressures", "/note what:pressures", bot.OfCar(car)))
	return o.Paged(reply, fmt.Sprintf("/log page:%d", page), bot.OfCar(car)), nil
}
