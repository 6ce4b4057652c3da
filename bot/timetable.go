package bot

import (
	"context"
	"slices"

	"detent/tuning"
	"detent/tuning/calendar"
)

// Timetable keeps what is due.
type Timetable interface {
	// Schedule replaces what is due of an event for a person ("" for the
	// club's channel); nothing given takes it off the timetable. What people
	// wrote stays on it.
	Schedule(ctx context.Context, event int64, person string, due []calendar.Due) error
}

// PlanEntries puts what is due of an event for a person on the timetable: once,
// however many cars they enter.
func (c Call) PlanEntries(ctx context.Context, timetable Timetable, e tuning.Event, entrants []tuning.Entrant, person string) error {
	var due []calendar.Due
	for _, entrant := range EntriesOf(entrants, person) {
		also, err := calendar.ForEntrant(c.Club, e, entrant, c.Now())
		if err != nil {
			return err
		}
		if len(also) > len(due) {
			due = also
		}
	}
	return timetable.Schedule(ctx, e.ID, person, due)
}

// PlanGuide puts the guide of an event on the timetable.
func (c Call) PlanGuide(ctx context.Context, timetable Timetable, e tuning.Event) error {
	return timetable.Schedule(ctx, e.ID, "", calendar.ForChannel(c.Club, e, c.Now()))
}

// PlanEvent puts all that is due of an event on the timetable anew.
func (c Call) PlanEvent(ctx context.Context, timetable Timetable, e tuning.Event, entrants []tuning.Entrant) error {
	planned := map[string]bool{}
	for _, entrant := range entrants {
		if planned[entrant.Person] {
			continue
		}
		planned[entrant.Person] = true
		if err := c.PlanEntries(ctx, timetable, e, entrants, entrant.Person); err != nil {
			return err
		}
	}
	return c.PlanGuide(ctx, timetable, e)
}

// EntryBook is what a car's entries are taken back from.
type EntryBook interface {
	Events
	Entries
	Timetable
}

// LeaveAll takes a car out of the events to come, and says which.
func (c Call) LeaveAll(ctx context.Context, book EntryBook, car tuning.Car) (said []string, err error) {
	events, err := book.Events(ctx, c.Now())
	if err != nil {
		return nil, err
	}
	for _, e := range events {
		entrants, err := book.Entrants(ctx, e)
		if err != nil {
			return nil, err
		}
		theCar := func(other tuning.Entrant) bool { return other.Car.ID == car.ID }
		if e.Cancelled || !e.Starts.After(c.Now()) || !slices.ContainsFunc(entrants, theCar) {
			continue
		}
		if err := book.Leave(ctx, e, car); err != nil {
			return nil, err
		}
		if err := c.PlanEntries(ctx, book, e, slices.DeleteFunc(entrants, theCar), c.Owner()); err != nil {
			return nil, err
		}
		said = append(said, "It is no longer entered in "+e.Name+".")
	}
	return said, nil
}

// EntriesOf are a person's own entries.
func EntriesOf(entrants []tuning.Entrant, person string) []tuning.Entrant {
	return slices.DeleteFunc(slices.Clone(entrants), func(e tuning.Entrant) bool { return e.Person != person })
}
