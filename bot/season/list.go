package season

import (
	"context"
	"slices"
	"strings"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
)

func listEventsCommand() bot.Command {
	return declare(bot.Command{Name: "event list", Help: "The events to come", Private: true}, listEvents)
}

func showEventCommand() bot.Command {
	return declare(bot.Command{Name: "event show", Help: "One event, and whether you are in it", Private: true}, showEvent)
}

func listEvents(ctx context.Context, call call, o bot.MoreOption) (bot.Reply, error) {
	events, err := call.Book.Events(ctx, call.Now())
	if err != nil {
		return bot.Reply{}, err
	}
	if len(events) == 0 {
		return bot.Reply{Title: "No event is planned", Text: "An organiser plans one with /event add."}, nil
	}
	var lines []string
	for _, e := range events {
		line := e.Name + ": " + say.Time(e.Starts, call.Zone())
		if e.Place != "" {
			line += ", " + e.Place
		}
		if e.Cancelled {
			line += ", cancelled"
		}
		lines = append(lines, line)
	}
	reply := bot.Reply{Title: say.Count(len(events), "event", "events") + " to come", Text: strings.Join(lines, "\n")}
	if i := slices.IndexFunc(events, func(e tuning.Event) bool { return !e.Cancelled }); i >= 0 {
		reply.Actions = []bot.Action{bot.Button("Show the next", "/event show", bot.OfEvent(events[i]))}
	}
	return o.Paged(reply, "/event list"), nil
}

func showEvent(ctx context.Context, call call, o eventOption) (bot.Reply, error) {
	e, err := call.FindEvent(ctx, call.Book, o.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	entrants, err := call.Book.Entrants(ctx, e)
	if err != nil {
		return bot.Reply{}, err
	}
	reply := bot.Reply{Title: e.Name, Text: say.Event(e, call.Zone()) + "\n" + say.Places(e, len(entrants))}
	mine := bot.EntriesOf(entrants, call.Owner())
	if len(mine) > 0 {
		reply.Text += " In with " + say.AllOf(carNames(mine)) + "."
	}
	switch {
	case e.Cancelled:
		reply.Title += " is cancelled"
	case !e.Ends.After(call.Now()):
		reply.Title += " is over"
	case len(mine) > 0:
		reply.Actions = []bot.Action{bot.Button("My sheet", "/event sheet", bot.OfEvent(e)), bot.Button("Take my entry back", "/event leave", bot.OfEvent(e))}
	default:
		reply.Actions = []bot.Action{bot.Button("Enter my car", "/event enter", bot.OfEvent(e))}
	}
	if role := call.Ask.Who.RoleIn(call.Club); role.Allows(tuning.CoachRole) {
		reply.Actions = append(reply.Actions, bot.Button("Who is in", "/event entrants", bot.OfEvent(e)))
		if role.Allows(tuning.OrganiserRole) {
			reply.Actions = append(reply.Actions, bot.Button("Plan it again", "/event copy", bot.OfEvent(e)))
		}
	}
	return reply, nil
}
