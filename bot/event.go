package bot

import (
	"context"
	"fmt"
	"strconv"
	"time"

	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

func eventCommands() []Command {
	details := []Option{
		{Name: "place", Help: "where it is"},
		{Name: "surface", Help: "how rough the track is", Kind: Choice, Choices: []string{string(tuning.Smooth), string(tuning.Bumpy)}},
		{Name: "weather", Help: "the weather expected", Kind: Choice, Choices: []string{string(tuning.Dry), string(tuning.Wet)}},
		{Name: "limit", Help: "the most cars, 0 for no limit", Kind: Whole, Min: 0, Max: 1000},
		{Name: "guide-at", Help: "when the guide is posted by itself, in the club's local time", Kind: Moment},
	}
	starts := Option{Name: "starts", Help: "when it starts, in the club's local time", Kind: Moment}
	ends := Option{Name: "ends", Help: "when it ends, in the club's local time", Kind: Moment}
	return []Command{
		{Name: "event add", Help: "Plan an event", Role: tuning.OrganiserRole, Writes: true, Answer: addEvent,
			Options: append([]Option{required(Option{Name: "name", Help: "what the event is called"}), required(starts), required(ends)}, details...)},
		{Name: "event list", Help: "The events to come", Private: true, Answer: listEvents},
		{Name: "event show", Help: "One event, and whether you are in it", Private: true, Options: []Option{whichEvent}, Answer: showEvent},
		{Name: "event edit", Help: "Change an event", Role: tuning.OrganiserRole, Writes: true, Answer: editEvent,
			Options: append([]Option{whichEvent, {Name: "rename", Help: "its new name"}, starts, ends}, details...)},
		{Name: "event cancel", Help: "Call an event off", Role: tuning.OrganiserRole, Writes: true, Options: []Option{whichEvent}, Answer: cancelEvent},
		{Name: "event enter", Help: "Enter a car in an event", Private: true, Writes: true, Answer: enterEvent, Options: []Option{whichEvent, carOption,
			{Name: "remind", Help: "whether a message may come before and after it", Kind: Choice, Choices: yesNo},
			{Name: "sheet", Help: "whether you want your car's sheet with it", Kind: Choice, Choices: yesNo}}},
		{Name: "event leave", Help: "Take your entry back", Private: true, Writes: true, Options: []Option{whichEvent, carOption}, Answer: leaveEvent},
	}
}

// whichEvent names the event that a line is about.
var whichEvent = Option{Name: "name", Help: "the event; the one under way or the next when not said", Source: FromEvents}

func required(o Option) Option { o.Required = true; return o }

// eventNumber begins an event's number where its name could stand, as
// carNumber does for a car.
const eventNumber = "#"

// theEvent finds the event that the line names, or the one under way or the
// next.
func (c Call) theEvent(ctx context.Context) (tuning.Event, error) {
	return c.eventCalled(ctx, c.Args.Text("name"))
}

// eventCalled finds an event by its name or its number; "" as for theEvent.
func (c Call) eventCalled(ctx context.Context, name string) (tuning.Event, error) {
	event, err := c.Book.Event(ctx, name)
	if tuning.KindOf(err) != tuning.NotFound || name == "" {
		return event, err
	}
	events, failed := c.Book.Events(ctx, c.now().AddDate(-1, 0, 0))
	if failed != nil {
		return event, failed
	}
	var names []string
	for _, e := range events {
		if name == eventNumber+strconv.FormatInt(e.ID, 10) {
			return e, nil
		}
		names = append(names, e.Name)
	}
	return event, tuning.Problemf(tuning.NotFound, "There is no event called %q%s: /event list shows the names.", name, didYouMean(name, names))
}

// aimEvent is a line with the event named, for a button; one whose name has no
// room there goes by its number.
func aimEvent(line string, e tuning.Event) string {
	if named := line + " name:" + Quote(e.Name); len([]rune(named)) <= maxAim {
		return named
	}
	return fmt.Sprintf("%s name:%s%d", line, eventNumber, e.ID)
}

func addEvent(ctx context.Context, call Call) (Reply, error) {
	e, notes, err := call.describeEvent(tuning.Event{By: call.owner()}, "name")
	if err != nil {
		return Reply{}, err
	}
	if e, err = call.Book.SaveEvent(ctx, e); err != nil {
		return Reply{}, err
	}
	if call.Club.Zone == tuning.DefaultClub("").Zone {
		notes = append(notes, "The club's clocks are on "+call.Club.Zone+": /club set zone changes that.")
	}
	return Reply{Title: e.Name + " is planned", Text: say.Event(e, calendar.ClubZone(call.Club)), Notes: notes,
		Actions: []Action{{"Enter my car", aimEvent("/event enter", e)}}}, call.planGuide(ctx, e)
}

func editEvent(ctx context.Context, call Call) (Reply, error) {
	was, err := call.theEvent(ctx)
	if err != nil {
		return Reply{}, err
	}
	if err := open(was, call); err != nil {
		return Reply{}, err
	}
	if len(call.Args) == 0 || len(call.Args) == 1 && call.Args.Has("name") {
		return Reply{}, tuning.Problemf(tuning.Invalid, "Say what to change of %s, for example place:\"Windy Hill\".", was.Name)
	}
	e, notes, err := call.describeEvent(was, "rename")
	if err != nil {
		return Reply{}, err
	}
	entrants, err := call.Book.Entrants(ctx, e)
	if err != nil {
		return Reply{}, err
	}
	if e.Limit > 0 && e.Limit < len(entrants) {
		return Reply{}, tuning.Problemf(tuning.Conflict, "%s are entered already: the limit cannot be %d.", say.Count(len(entrants), "car", "cars"), e.Limit)
	}
	if e, err = call.Book.SaveEvent(ctx, e); err != nil {
		return Reply{}, err
	}
	return Reply{Title: e.Name + " is changed", Text: say.Event(e, calendar.ClubZone(call.Club)), Notes: notes,
		Actions: []Action{{"Enter my car", aimEvent("/event enter", e)}}}, call.planAll(ctx, e, entrants)
}

// open returns a Problem when an event is over or cancelled.
func open(e tuning.Event, call Call) error {
	switch {
	case e.Cancelled:
		return tuning.Problemf(tuning.Conflict, "%s is cancelled: /event list shows what is planned.", e.Name)
	case !e.Ends.After(call.now()):
		return tuning.Problemf(tuning.Conflict, "%s was over on %s.", e.Name, say.Time(e.Ends, calendar.ClubZone(call.Club)))
	}
	return nil
}

// openEvent is theEvent with the cars entered in it, refused when it is
// cancelled or over.
func (c Call) openEvent(ctx context.Context) (tuning.Event, []tuning.Entrant, error) {
	e, err := c.theEvent(ctx)
	if err != nil {
		return e, nil, err
	}
	if err := open(e, c); err != nil {
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
func (c Call) describeEvent(was tuning.Event, name string) (e tuning.Event, notes []string, err error) {
	e = was
	for option, to := range map[string]*string{name: &e.Name, "place": &e.Place} {
		if !c.Args.Has(option) {
			continue
		}
		if *to, err = tuning.CheckName(c.Args.Text(option)); err != nil {
			return e, nil, err
		}
	}
	put(&e.Surface, c.Args, "surface")
	put(&e.Weather, c.Args, "weather")
	if c.Args.Has("limit") {
		e.Limit = c.Args.Whole("limit")
	}
	zone := calendar.ClubZone(c.Club)
	for _, t := range []struct {
		option string
		to     *time.Time
	}{{"starts", &e.Starts}, {"ends", &e.Ends}, {"guide-at", &e.GuideAt}} {
		if !c.Args.Has(t.option) {
			continue
		}
		at, said := calendar.Settle(c.Args.Moment(t.option), zone)
		*t.to = at
		if said != "" {
			notes = append(notes, said)
		}
	}
	return e, notes, checkTimes(e, was, c.now(), zone)
}

// checkTimes returns a Problem when an event's times cannot be.
func checkTimes(e, was tuning.Event, now time.Time, zone *time.Location) error {
	say := func(t time.Time) string { return say.Time(t, zone) }
	moved := !e.Starts.Equal(was.Starts)
	switch {
	case !e.Starts.Before(e.Ends):
		return tuning.Problemf(tuning.Invalid, "It ends before it starts: %s is not after %s.", say(e.Ends), say(e.Starts))
	case moved && e.Starts.Before(now):
		return tuning.Problemf(tuning.Invalid, "%s is in the past: give a time to come.", say(e.Starts))
	case !e.Ends.After(now):
		return tuning.Problemf(tuning.Invalid, "%s is in the past: give a time to come.", say(e.Ends))
	case e.Ends.Sub(e.Starts) > longestEvent:
		return tuning.Problemf(tuning.Invalid, "From %s to %s is longer than two weeks: check the dates.", say(e.Starts), say(e.Ends))
	case e.Starts.Sub(now) > farthestEvent:
		return tuning.Problemf(tuning.Invalid, "%s is more than three years away: check the year.", say(e.Starts))
	case !e.GuideAt.Equal(was.GuideAt) && e.GuideAt.Before(now):
		return tuning.Problemf(tuning.Invalid, "%s is in the past: post the guide by hand with /event guide.", say(e.GuideAt))
	case !e.GuideAt.IsZero() && !e.GuideAt.Before(e.Starts):
		return tuning.Problemf(tuning.Invalid, "The guide is of use before the event starts: %s is not before %s.", say(e.GuideAt), say(e.Starts))
	}
	return nil
}

func cancelEvent(ctx context.Context, call Call) (Reply, error) {
	e, entrants, err := call.openEvent(ctx)
	if err != nil {
		return Reply{}, err
	}
	e.Cancelled = true
	if e, err = call.Book.SaveEvent(ctx, e); err != nil {
		return Reply{}, err
	}
	return Reply{Title: e.Name + " is cancelled",
		Text: fmt.Sprintf("It was planned for %s. %s in it; no reminder will come.", say.Time(e.Starts, calendar.ClubZone(call.Club)), say.Count(len(entrants), "car was", "cars were")),
	}, call.planAll(ctx, e, entrants)
}
