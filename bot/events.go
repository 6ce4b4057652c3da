package bot

import (
	"context"
	"time"

	"detent/tuning"
	"detent/tuning/calendar"
	"detent/tuning/learn"
)

// Events reads events and who is in them.
type Events interface {
	// Events lists the club's events that end after from, soonest first, those
	// that were cancelled among them.
	Events(ctx context.Context, from time.Time) ([]tuning.Event, error)
	// Event finds an event by name, whatever its case; "" is the one under way
	// or the next.
	Event(ctx context.Context, name string) (tuning.Event, error)
	// Entrants lists the cars entered in an event, in the order they entered.
	Entrants(ctx context.Context, event tuning.Event) ([]tuning.Entrant, error)
}

// Entries keeps the cars entered in events.
type Entries interface {
	// Enter enters a car. A car that is in already, an event that is cancelled
	// and one with no place left are Conflicts.
	Enter(ctx context.Context, event tuning.Event, entrant tuning.Entrant) error
	// Remind keeps whether messages about the event are wanted for a car.
	Remind(ctx context.Context, event tuning.Event, car tuning.Car, wanted bool) error
	// Leave takes a car's entry back.
	Leave(ctx context.Context, event tuning.Event, car tuning.Car) error
}

// Season keeps events and the cars entered in them. Changes, advice, searches
// and feel belong to the event the car is at that day: the book sees to that.
type Season interface {
	Events
	Entries
	// SaveEvent adds an event, or changes the one with the same ID. One that
	// runs at the same time as another, or a name that another event to come
	// has, is a Conflict.
	SaveEvent(ctx context.Context, event tuning.Event) (tuning.Event, error)
	// EntriesOf lists a person's own cars in an event, in the order they
	// entered, and tells how many are in it of everybody's.
	EntriesOf(ctx context.Context, event tuning.Event, person string) (own []tuning.Entrant, all int, err error)
	// WantSheet keeps whether a car's sheet for the event is wanted.
	WantSheet(ctx context.Context, event tuning.Event, car tuning.Car, wanted bool) error
	// Tried lists the complaints made at an event, and what was turned for each.
	Tried(ctx context.Context, event tuning.Event) ([]tuning.Tried, error)
	// TriesAt lists the tries that were judged at an event, oldest first.
	TriesAt(ctx context.Context, event tuning.Event) ([]learn.Try, error)
	// AtPlace reads what is on record of a car at the events at a place that have
	// begun, and the tries that were judged there, oldest first. Where nothing is
	// the record has no visits.
	AtPlace(ctx context.Context, car tuning.Car, place string) (tuning.PlaceRecord, []learn.Try, error)
}

// Tellings keeps what organisers told those who are in an event.
type Tellings interface {
	// EventMessages lists those of an event from a moment on, oldest first.
	EventMessages(ctx context.Context, event tuning.Event, from time.Time) ([]tuning.EventMessage, error)
	// SaveEventMessage keeps one more. Of two at once the later knows of the
	// earlier.
	SaveEventMessage(ctx context.Context, message tuning.EventMessage) (tuning.EventMessage, error)
	// Deliver puts a direct message on the timetable for each of some people,
	// once.
	Deliver(ctx context.Context, due calendar.Due, to ...string) error
}
