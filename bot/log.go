package bot

import (
	"context"
	"fmt"
	"strings"

	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

func logCommands() []Command {
	return []Command{{Name: "log", Help: "What was changed, newest first", Private: true, Answer: showLog, Options: []Option{
		carOption, {Name: "page", Help: "which page, 1 is the newest", Kind: Whole, Min: 1, Max: 100000}}}}
}

func showLog(ctx context.Context, call Call) (Reply, error) {
	car, err := call.theCar(ctx)
	if err != nil {
		return Reply{}, err
	}
	page := max(1, call.Args.Whole("page"))
	entries, more, err := call.Book.Log(ctx, car, page)
	if err != nil {
		return Reply{}, err
	}
	if len(entries) == 0 && page > 1 {
		return Reply{}, tuning.Problemf(tuning.NotFound, "The log of %s has no page %d: try a smaller number.", car.Name, page)
	}
	reply := Reply{Title: "Log of " + car.Name, Text: "Nothing changed yet."}
	zone := calendar.ClubZone(call.Club)
	var lines []string
	for _, e := range entries {
		lines = append(lines, say.LogEntry(car, e, zone, call.owner()))
	}
	if len(lines) > 0 {
		reply.Text = strings.Join(lines, "\n")
	}
	if more {
		reply.Actions = []Action{{"Older", aim(fmt.Sprintf("/log page:%d", page+1), car)}}
	}
	return reply, nil
}
