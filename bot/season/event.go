package season

import (
	"cmp"
	"context"
	"fmt"
	"strings"
	"time"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

func addEventCommand() bot.Command {
	return declare(bot.Command{Name: "event add", Help: "Plan an event", Role: tuning.OrganiserRole, Writes: true}, addEvent)
}

func editEventCommand() bot.Command {
	return declare(bot.Command{Name: "event edit", Help: "Change an event", Role: tuning.OrganiserRole, Writes: true}, editEvent)
}

func cancelEventCommand() bot.Command {
	return declare(bot.Command{Name: "event cancel", Help: "Call an event off", Role: tuning.OrganiserRole, Writes: true}, cancelEvent)
}

type cancelEventOptions struct {
	Text string `name:"text" help:"why, sent to those who are in"`
	eventOption
}

type addEventOptions struct {
	Name   string    `name:"name" help:"what the event is called" required:"yes"`
	Starts time.Time `name:"starts" help:"when it starts, in the club's local time" required:"yes"`
	Ends   time.Time `name:"ends" help:"when it ends, in the club's local time" required:"yes"`
	eventDetails
}

type editEventOptions struct {
	eventOption
	eventChange
}

// eventChange is all that can be changed of an event.
type eventChange struct {
	Rename *string    `name:"rename" help:"its new name"`
	Starts *time.Time `name:"starts" help:"when it starts, in the club's local time"`
	Ends   *time.Time `name:"ends" help:"when it ends, in the club's local time"`
	eventDetails
}

// eventDetails are what may be said of an event beside its name and times.
type eventDetails struct {
	Place   *string        `name:"place" help:"where it is"`
	Surface tuning.Surface `name:"surface" help:"how rough the track is"`
	Weather tuning.Weather `name:"weather" help:"the weather expected" choices:"dry,wet,either"`
	Limit   *int           `name:"limit" help:"the most cars, 0 for no limit" min:"0" max:"1000"`
	GuideAt *time.Time     `name:"guide-at" help:"when the guide is posted by itself, in the club's local time"`
}

func addEvent(ctx context.Context, call call, o addEventOptions) (bot.Reply, error) {
	e, notes, err := call.describeEvent(tuning.Event{By: call.Owner()}, eventChange{&o.Name, &o.Starts, &o.Ends, o.eventDetails})
	if err != nil {
		return bot.Reply{}, err
	}
	if e, err = call.Book.SaveEvent(ctx, e); err != nil {
		return bot.Reply{}, err
	}
	if call.Club.Zone == tuning.DefaultClub("").Zone {
		notes = append(notes, "The club's clocks are on "+call.Club.Zone+": /club set zone changes that.")
	}
	return bot.Reply{Title: e.Name + " is planned", Text: say.Event(e, call.Zone()), Notes: notes,
		Actions: []bot.Action{bot.Button("Enter my car", "/event enter", bot.OfEvent(e))}}, call.PlanGuide(ctx, call.Book, e)
}

func editEvent(ctx context.Context, call call, o editEventOptions) (bot.Reply, error) {
	was, err := call.FindEvent(ctx, call.Book, o.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	if err := call.checkOpen(was); err != nil {
		return bot.Reply{}, err
	}
	if bot.GivesNothing(o.eventChange) {
		return bot.Reply{}, bot.Problemf(tuning.Invalid, "Say what to change of %s, for example place:\"Windy Hill\".", was.Name)
	}
	e, notes, err := call.describeEvent(was, o.eventChange)
	if err != nil {
		return bot.Reply{}, err
	}
	entrants, err := call.Book.Entrants(ctx, e)
	if err != nil {
		return bot.Reply{}, err
	}
	if e.Limit > 0 && e.Limit < len(entrants) {
		return bot.Reply{}, bot.Problemf(tuning.Conflict, "%s are entered already: the limit cannot be %d.", say.Count(len(entrants), "car", "cars"), e.Limit)
	}
	if e, err = call.Book.SaveEvent(ctx, e); err != nil {
		return bot.Reply{}, err
	}
	reply := bot.Reply{Title: e.Name + " is changed", Text: sayChanges(was, e, call.Zone()), Notes: notes,
		Actions: []bot.Action{bot.Button("Enter my car", "/event enter", bot.OfEvent(e))}}
	if len(entrants) > 0 {
		reply.Actions = append(reply.Actions, bot.Button("Tell those who are in", "/event tell", bot.OfEvent(e)))
	}
	return reply, call.PlanEvent(ctx, call.Book, e, entrants)
}

// sayChanges says what is new of an event, and nothing else.
func sayChanges(was, e tuning.Event, zone *time.Location) string {
	var lines []string
	add := func(changed bool, format string, args ...any) {
		if changed {
			lines = append(lines, fmt.Sprintf(format, args...))
		}
	}
	add(was.Name != e.Name, "It was called %s.", was.Name)
	add(!was.Starts.Equal(e.Starts) || !was.Ends.Equal(e.Ends), "Now %s to %s.", say.Time(e.Starts, zone), say.End(e, zone))
	add(was.Place != e.Place, "Place: %s.", e.Place)
	add(was.Surface != e.Surface, "Track: %s.", e.Surface)
	add(was.Weather != e.Weather, "Weather: %s.", say.Weather(e.Weather))
	add(was.Limit != e.Limit && e.Limit > 0, "Places: %d.", e.Limit)
	add(was.Limit != e.Limit && e.Limit == 0, "Places: no limit.")
	add(!was.GuideAt.Equal(e.GuideAt), "The guide comes on %s.", say.Time(e.GuideAt, zone))
	if lines == nil {
		return "Nothing is different."
	}
	return strings.Join(lines, "\n")
}

// checkOpen returns a Problem when an event is over or cancelled.
func (c call) checkOpen(e tuning.Event) error {
	switch {
	case e.Cancelled:
		return bot.Problemf(tuning.Conflict, "%s is cancelled: /event list shows what is planned.", e.Name)
	case !e.Ends.After(c.Now()):
		return bot.Problemf(tuning.Conflict, "%s was over on %s.", e.Name, say.Time(e.Ends, c.Zone()))
	}
	return nil
}

// openEvent finds an event with the cars entered in it, refused when it is
// cancelled or over.
func (c call) openEvent(ctx context.Context, name string) (tuning.Event, []tuning.Entrant, error) {
	e, err := c.FindEvent(ctx, c.Book, name)
	if err != nil {
		return e, nil, err
	}
	if err := c.checkOpen(e); err != nil {
		return e, nil, err
	}
	entrants, err := c.Book.Entrants(ctx, e)
	return e, entrants, err
}

// The bounds of an event; they only catch slips of the thumb.
const (
	longestEvent  = 14 * 24 * time.Hour
	farthestEvent = 3 * 366 * 24 * time.Hour
)

// describeEvent puts what was said onto an event. The notes say what was made
// of times on days when the clocks change.
func (c call) describeEvent(was tuning.Event, o eventChange) (e tuning.Event, notes []string, err error) {
	e = was
	for _, n := range []struct{ to, given *string }{{&e.Name, o.Rename}, {&e.Place, o.Place}} {
		if n.given == nil {
			continue
		}
		if *n.to, err = tuning.CheckName(*n.given); err != nil {
			return e, nil, err
		}
	}
	e.Surface, e.Weather = cmp.Or(o.Surface, e.Surface), cmp.Or(o.Weather, e.Weather)
	bot.Overwrite(&e.Limit, o.Limit)
	zone := c.Zone()
	for _, t := range []struct{ to, given *time.Time }{{&e.Starts, o.Starts}, {&e.Ends, o.Ends}, {&e.GuideAt, o.GuideAt}} {
		if t.given == nil {
			continue
		}
		at, odd := calendar.Settle(*t.given, zone)
		*t.to = at
		if odd != "" {
			notes = append(notes, say.Odd(odd, *t.given, at, zone))
		}
	}
	return e, notes, checkTimes(e, was, c.Now(), zone)
}

// checkTimes returns a Problem when an event's times cannot be.
func checkTimes(e, was tuning.Event, now time.Time, zone *time.Location) error {
	clock := func(t time.Time) string { return say.Time(t, zone) }
	moved := !e.Starts.Equal(was.Starts)
	switch {
	case !e.Starts.Before(e.Ends):
		return bot.Problemf(tuning.Invalid, "It ends before it starts: %s is not after %s.", clock(e.Ends), clock(e.Starts))
	case moved && e.Starts.Before(now):
		return bot.Problemf(tuning.Invalid, "%s is in the past: give a time to come.", clock(e.Starts))
	case !e.Ends.After(now):
		return bot.Problemf(tuning.Invalid, "%s is in the past: give a time to come.", clock(e.Ends))
	case e.Ends.Sub(e.Starts) > longestEvent:
		return bot.Problemf(tuning.Invalid, "From %s to %s is longer than two weeks: check the dates.", clock(e.Starts), clock(e.Ends))
	case e.Starts.Sub(now) > farthestEvent:
		return bot.Problemf(tuning.Invalid, "%s is more than three years away: check the year.", clock(e.Starts))
	case !e.GuideAt.Equal(was.GuideAt) && e.GuideAt.Before(now):
		return bot.Problemf(tuning.Invalid, "%s is in the past: post the guide by hand with /event guide.", clock(e.GuideAt))
	case !e.GuideAt.IsZero() && !e.GuideAt.Before(e.Starts):
		return bot.Problemf(tuning.Invalid, "The guide is of use before the event starts: %s is not before %s.", clock(e.GuideAt), clock(e.Starts))
	}
	return nil
}

func cancelEvent(ctx context.Context, call call, o cancelEventOptions) (bot.Reply, error) {
	why, err := tellable(o.Text)
	if err != nil {
		return bot.Reply{}, err
	}
	e, err := call.FindEvent(ctx, call.Book, o.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	already := e.Cancelled
	open := e
	open.Cancelled = already && why == "" // with a reason, those who are in can be told later too
	if err := call.checkOpen(open); err != nil {
		return bot.Reply{}, err
	}
	entrants, err := call.Book.Entrants(ctx, e)
	if err != nil {
		return bot.Reply{}, err
	}
	reached := reachOf(entrants)
	if already {
		err = call.checkTelling(ctx, e, reached)
	} else {
		e.Cancelled = true
		if e, err = call.Book.SaveEvent(ctx, e); err == nil {
			err = call.PlanEvent(ctx, call.Book, e, entrants)
		}
	}
	if err != nil {
		return bot.Reply{}, err
	}
	reply := bot.Reply{Title: e.Name + " is cancelled",
		Text: fmt.Sprintf("It was planned for %s. %s in it; no reminder will come.", say.Time(e.Starts, call.Zone()), say.Count(len(entrants), "car was", "cars were"))}
	return call.tellCancelled(ctx, reply, e, reached, why)
}

// tellCancelled tells those who are in an event why it is cancelled, or where no
// reason was given offers to.
func (c call) tellCancelled(ctx context.Context, reply bot.Reply, e tuning.Event, reached reach, why string) (bot.Reply, error) {
	switch {
	case len(reached.wanting)+reached.unwilling == 0:
	case len(reached.wanting) == 0:
		reply.Text += "\nThey take no messages: tell them yourself."
	case why == "":
		reply.Text += "\nThey are not told yet: /event cancel text:WHY tells them."
		reply.Actions = []bot.Action{bot.Button("Tell those who are in", "/event cancel text:"+bot.Blank, bot.OfEvent(e))}
	default:
		told, err := c.tell(ctx, e, reached, tuning.EventMessage{Text: why, Cancels: true})
		reply.Text += "\n" + told.Title + ".\n" + told.Text
		return reply, err
	}
	return reply, nil
}
