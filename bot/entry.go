package bot

import (
	"context"
	"fmt"
	"slices"

	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

func enterEvent(ctx context.Context, call Call) (Reply, error) {
	e, err := call.theEvent(ctx)
	if err != nil {
		return Reply{}, err
	}
	car, err := call.theCar(ctx)
	if err != nil {
		return Reply{}, err
	}
	if err := open(e, call); err != nil {
		return Reply{}, err
	}
	if car.Retired {
		return Reply{}, tuning.Problemf(tuning.Invalid, "%s is retired: enter a car that still runs.", car.Name)
	}
	entrants, err := call.Book.Entrants(ctx, e)
	if err != nil {
		return Reply{}, err
	}
	entrant := tuning.Entrant{Event: e.ID, Person: call.owner(), Car: car, Reminded: call.Member.Reminders}
	if remind := call.Args.Yes("remind"); remind != nil {
		entrant.Reminded = *remind
	}
	// Whoever is in already may still say whether messages are wanted.
	i := slices.IndexFunc(entrants, func(other tuning.Entrant) bool { return other.Car.ID == car.ID })
	if i >= 0 && call.Args.Has("remind") {
		entrants[i].Reminded = entrant.Reminded
		err = call.Book.Remind(ctx, e, car, entrant.Reminded)
	} else {
		entrants = append(entrants, entrant)
		err = call.Book.Enter(ctx, e, entrant)
	}
	if err != nil {
		return Reply{}, err
	}
	reply := sayEntered(call, e, entrant, len(entrants))
	if sheet := call.Args.Yes("sheet"); sheet != nil && *sheet && car.Fitted() == nil {
		k, err := call.theCase(ctx)
		if err != nil {
			return Reply{}, err
		}
		if reply.Files, err = printed("sheet.pdf", call.carPage(e, k)); err != nil {
			return Reply{}, err
		}
	}
	return reply, call.plan(ctx, e, entrants, call.owner())
}

// sayEntered confirms an entry, says which messages will come and offers to
// refuse them.
func sayEntered(call Call, e tuning.Event, entrant tuning.Entrant, in int) Reply {
	reply := Reply{Title: entrant.Car.Name + " is in for " + e.Name, Text: say.Event(e, calendar.ClubZone(call.Club)) + "\n" + say.Places(e, in)}
	sheet := Action{"My sheet", aimEntry("/event sheet", e, entrant.Car)}
	out := Action{"Take my entry back", aimEntry("/event leave", e, entrant.Car)}
	if entrant.Reminded {
		reply.Text += "\nA reminder to check clicks and pressures will come before it, and one question how the car felt after it."
		reply.Actions = []Action{sheet, {"No messages, please", aimEntry("/event enter remind:no", e, entrant.Car)}, out}
	} else {
		reply.Text += "\nNo message will come about it."
		reply.Actions = []Action{sheet, {"Do send messages", aimEntry("/event enter remind:yes", e, entrant.Car)}, out}
	}
	if entrant.Reminded && !call.Member.Reminders {
		reply.Notes = append(reply.Notes, "Your reminders are off for all events: /me set reminders:on brings them back.")
	}
	if err := entrant.Car.Fitted(); err != nil {
		reply.Notes = append(reply.Notes, "I do not know its dampers yet: tell me with /damper fit, and the guide and your sheet have its figures.")
	}
	return reply
}

// aimEntry is a line with the event and the car named, for a button, by their
// numbers where the names have no room.
func aimEntry(line string, e tuning.Event, car tuning.Car) string {
	if named := line + " name:" + Quote(e.Name) + " car:" + Quote(car.Name); len([]rune(named)) <= maxAim {
		return named
	}
	return fmt.Sprintf("%s name:%s%d car:%s%d", line, eventNumber, e.ID, carNumber, car.ID)
}

func leaveEvent(ctx context.Context, call Call) (Reply, error) {
	e, entrants, err := call.openEvent(ctx)
	if err != nil {
		return Reply{}, err
	}
	leaving := entriesOf(entrants, call.owner())
	if call.Args.Has("car") {
		car, err := call.theCar(ctx)
		if err != nil {
			return Reply{}, err
		}
		leaving = []tuning.Entrant{{Car: car}}
	}
	if len(leaving) == 0 {
		return Reply{}, tuning.Problemf(tuning.NotFound, "You are not entered in %s.", e.Name)
	}
	for _, gone := range leaving {
		if err := call.Book.Leave(ctx, e, gone.Car); err != nil {
			return Reply{}, err
		}
		entrants = slices.DeleteFunc(entrants, func(other tuning.Entrant) bool { return other.Car.ID == gone.Car.ID })
	}
	return Reply{Title: say.AllOf(carNames(leaving)) + " left " + e.Name, Text: "No message will come about it.",
		Actions: []Action{{"Enter again", aimEntry("/event enter", e, leaving[0].Car)}}}, call.plan(ctx, e, entrants, call.owner())
}

// entriesOf are a person's own entries.
func entriesOf(entrants []tuning.Entrant, person string) []tuning.Entrant {
	return slices.DeleteFunc(slices.Clone(entrants), func(e tuning.Entrant) bool { return e.Person != person })
}

func carNames(entrants []tuning.Entrant) []string {
	names := make([]string, len(entrants))
	for i, e := range entrants {
		names[i] = e.Car.Name
	}
	return names
}

// plan puts what is due of an event for a person on the timetable: once,
// however many cars they enter.
func (c Call) plan(ctx context.Context, e tuning.Event, entrants []tuning.Entrant, person string) error {
	var due []calendar.Due
	for _, entrant := range entriesOf(entrants, person) {
		also, err := calendar.ForEntrant(c.Club, e, entrant, c.now())
		if err != nil {
			return err
		}
		if len(also) > len(due) {
			due = also
		}
	}
	return c.Book.Schedule(ctx, e.ID, person, due)
}

// planGuide puts the guide of an event on the timetable.
func (c Call) planGuide(ctx context.Context, e tuning.Event) error {
	return c.Book.Schedule(ctx, e.ID, "", calendar.ForChannel(c.Club, e, c.now()))
}

// planAll puts all that is due of an event on the timetable anew.
func (c Call) planAll(ctx context.Context, e tuning.Event, entrants []tuning.Entrant) error {
	planned := map[string]bool{}
	for _, entrant := range entrants {
		if planned[entrant.Person] {
			continue
		}
		planned[entrant.Person] = true
		if err := c.plan(ctx, e, entrants, entrant.Person); err != nil {
			return err
		}
	}
	return c.planGuide(ctx, e)
}

// leaveAll takes a car out of the events to come, and says which.
func leaveAll(ctx context.Context, call Call, car tuning.Car) (said []string, err error) {
	events, err := call.Book.Events(ctx, call.now())
	if err != nil {
		return nil, err
	}
	for _, e := range events {
		entrants, err := call.Book.Entrants(ctx, e)
		if err != nil {
			return nil, err
		}
		theCar := func(other tuning.Entrant) bool { return other.Car.ID == car.ID }
		if e.Cancelled || !e.Starts.After(call.now()) || !slices.ContainsFunc(entrants, theCar) {
			continue
		}
		if err := call.Book.Leave(ctx, e, car); err != nil {
			return nil, err
		}
		if err := call.plan(ctx, e, slices.DeleteFunc(entrants, theCar), call.owner()); err != nil {
			return nil, err
		}
		said = append(said, "It is no longer entered in "+e.Name+".")
	}
	return said, nil
}
