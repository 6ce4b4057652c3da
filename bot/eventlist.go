package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

// listed is how many events a list shows.
const listed = 15

func listEvents(ctx context.Context, call Call) (Reply, error) {
	events, err := call.Book.Events(ctx, call.now())
	if err != nil {
		return Reply{}, err
	}
	if len(events) == 0 {
		return Reply{Title: "No event is planned", Text: "An organiser plans one with /event add."}, nil
	}
	var lines []string
	for _, e := range events[:min(listed, len(events))] {
		line := e.Name + ": " + say.Time(e.Starts, calendar.ClubZone(call.Club))
		if e.Place != "" {
			line += ", " + e.Place
		}
		if e.Cancelled {
			line += ", cancelled"
		}
		lines = append(lines, line)
	}
	if more := len(events) - listed; more > 0 {
		lines = append(lines, fmt.Sprintf("And %d later.", more))
	}
	reply := Reply{Title: say.Count(len(events), "event", "events") + " to come", Text: strings.Join(lines, "\n")}
	if i := slices.IndexFunc(events, func(e tuning.Event) bool { return !e.Cancelled }); i >= 0 {
		reply.Actions = []Action{{"Show the next", aimEvent("/event show", events[i])}}
	}
	return reply, nil
}

func showEvent(ctx context.Context, call Call) (Reply, error) {
	e, err := call.theEvent(ctx)
	if err != nil {
		return Reply{}, err
	}
	entrants, err := call.Book.Entrants(ctx, e)
	if err != nil {
		return Reply{}, err
	}
	reply := Reply{Title: e.Name, Text: say.Event(e, calendar.ClubZone(call.Club)) + "\n" + say.Places(e, len(entrants))}
	mine := entriesOf(entrants, call.owner())
	if len(mine) > 0 {
		reply.Text += " In with " + say.AllOf(carNames(mine)) + "."
	}
	switch {
	case e.Cancelled:
		reply.Title += " is cancelled"
	case !e.Ends.After(call.now()):
		reply.Title += " is over"
	case len(mine) > 0:
		reply.Actions = []Action{{"My sheet", aimEvent("/event sheet", e)}, {"Take my entry back", aimEvent("/event leave", e)}}
	default:
		reply.Actions = []Action{{"Enter my car", aimEvent("/event enter", e)}}
	}
	return reply, nil
}

// suggestEvents offers the events to come, and after them those of the month
// that is over.
func suggestEvents(ctx context.Context, call Call, _ string) ([]Suggestion, error) {
	events, err := call.Book.Events(ctx, call.now().AddDate(0, -1, 0))
	over := func(e tuning.Event) int { return call.now().Compare(e.Ends) }
	slices.SortStableFunc(events, func(a, b tuning.Event) int { return over(a) - over(b) })
	var all []Suggestion
	for _, e := range events {
		label := e.Name + ", " + say.Time(e.Starts, calendar.ClubZone(call.Club))
		if e.Cancelled {
			label += ", cancelled"
		}
		all = append(all, Suggestion{e.Name, label})
	}
	return all, err
}
