package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"detent/tuning"
)

// sayEvent says when and where an event is, and what to expect there.
func sayEvent(e tuning.Event, zone *time.Location) string {
	words := sayTime(e.Starts, zone) + " to " + sayEnd(e, zone)
	for _, w := range []string{e.Place, string(e.Surface), string(e.Weather)} {
		if w != "" {
			words += ", " + w
		}
	}
	if e.Limit > 0 {
		words += ", " + count(e.Limit, "place", "places")
	}
	if !e.GuideAt.IsZero() {
		words += ".\nThe guide comes on " + sayTime(e.GuideAt, zone)
	}
	return words + "."
}

// sayTime says a moment on the clocks of the club.
func sayTime(t time.Time, zone *time.Location) string {
	return t.In(zone).Format("Mon 2 Jan 2006, 15:04")
}

// sayEnd is the time of day when an event ends, with the day when it is
// another one.
func sayEnd(e tuning.Event, zone *time.Location) string {
	if sameDay(e.Starts, e.Ends, zone) {
		return e.Ends.In(zone).Format("15:04")
	}
	return sayTime(e.Ends, zone)
}

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
		line := e.Name + ": " + sayTime(e.Starts, zoneOf(call.Club))
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
	reply := Reply{Title: count(len(events), "event", "events") + " to come", Text: strings.Join(lines, "\n")}
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
	reply := Reply{Title: e.Name, Text: sayEvent(e, zoneOf(call.Club)) + "\n" + sayPlaces(e, len(entrants))}
	mine := entriesOf(entrants, call.owner())
	if len(mine) > 0 {
		reply.Text += " In with " + andList(carNames(mine)) + "."
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

// sayPlaces says how many cars are in, and how many places are left.
func sayPlaces(e tuning.Event, in int) string {
	words := "No car is in yet"
	if in > 0 {
		words = count(in, "car is", "cars are") + " in"
	}
	if e.Limit > 0 {
		words += fmt.Sprintf(", %s left", count(e.Limit-in, "place is", "places are"))
	}
	return words + "."
}

// suggestEvents offers the events to come, and after them those of the month
// that is over.
func suggestEvents(ctx context.Context, call Call, _ string) ([]Suggestion, error) {
	events, err := call.Book.Events(ctx, call.now().AddDate(0, -1, 0))
	over := func(e tuning.Event) int { return call.now().Compare(e.Ends) }
	slices.SortStableFunc(events, func(a, b tuning.Event) int { return over(a) - over(b) })
	var all []Suggestion
	for _, e := range events {
		label := e.Name + ", " + sayTime(e.Starts, zoneOf(call.Club))
		if e.Cancelled {
			label += ", cancelled"
		}
		all = append(all, Suggestion{e.Name, label})
	}
	return all, err
}
