package season_test

import (
	"context"
	"slices"
	"testing"
	"time"

	"detent/bot"
	"detent/bot/bottest"
	"detent/bot/season"
	"detent/tuning"
	"detent/tuning/calendar"
	"detent/tuning/learn"
)

// clubYear is a record of a club's events, in memory. Everybody owns the same
// cars.
type clubYear struct {
	bottest.Settings
	events   []tuning.Event
	entrants map[int64][]tuning.Entrant
	cars     []tuning.Car
	tried    []tuning.Tried
	tries    []learn.Try
	place    tuning.PlaceRecord
	due      map[string]int // things due, by event and person: "1 robin"
	told     []tuning.EventMessage
	mail     []calendar.Due
	now      time.Time // when something is told, zero for the morning
}

// newYear is a club with a day in June and a mid-engined coupe with dampers,
// and an organiser and a member of it.
func newYear(t *testing.T) (year *clubYear, olga, robin bottest.Person) {
	d := tuning.Damper{Ways: 2, Count: tuning.FromHard}
	d.Range[tuning.Bump], d.Range[tuning.Rebound] = 16, 16
	year = &clubYear{Settings: bottest.NewSettings(), entrants: map[int64][]tuning.Entrant{}, due: map[string]int{},
		cars: []tuning.Car{{ID: 1, Name: "Grey coupe", Main: true, Drive: tuning.RearDrive, Engine: tuning.MidEngine, Dampers: [tuning.Axles]tuning.Damper{d, d}},
			{ID: 2, Name: "New van", Drive: tuning.FrontDrive, Engine: tuning.FrontEngine}}}
	robin = bottest.Person{T: t, Commands: season.Commands(), Book: year}
	olga = robin
	olga.Key, olga.Role = "olga", tuning.OrganiserRole
	olga.Does(`/event add name:"June day" starts:"2026-06-13 09:00" ends:"2026-06-13 17:00" place:"Windy Hill" surface:bumpy`)
	return year, olga, robin
}

func (y *clubYear) Cars(context.Context, string) ([]tuning.Car, error) { return y.cars, nil }

func (y *clubYear) Car(_ context.Context, _, name string) (tuning.Car, error) {
	for _, c := range y.cars {
		if c.Name == name || name == "" && c.Main {
			return c, nil
		}
	}
	return tuning.Car{}, bot.Problemf(tuning.NotFound, "No car.")
}

func (y *clubYear) Case(ctx context.Context, owner, name string) (tuning.Case, error) {
	car, err := y.Car(ctx, owner, name)
	return tuning.Case{Car: car}, err
}

func (y *clubYear) Events(_ context.Context, from time.Time) (events []tuning.Event, err error) {
	for _, e := range y.events {
		if e.Ends.After(from) {
			events = append(events, e)
		}
	}
	return events, nil
}

func (y *clubYear) Event(_ context.Context, name string) (tuning.Event, error) {
	for _, e := range y.events {
		if e.Name == name || name == "" {
			return e, nil
		}
	}
	return tuning.Event{}, bot.Problemf(tuning.NotFound, "No event.")
}

func (y *clubYear) SaveEvent(_ context.Context, event tuning.Event) (tuning.Event, error) {
	for i, e := range y.events {
		if e.ID == event.ID {
			y.events[i] = event
			return event, nil
		}
	}
	event.ID = int64(len(y.events) + 1)
	y.events = append(y.events, event)
	return event, nil
}

func (y *clubYear) Entrants(_ context.Context, e tuning.Event) ([]tuning.Entrant, error) {
	return slices.Clone(y.entrants[e.ID]), nil
}

func (y *clubYear) Enter(_ context.Context, e tuning.Event, entrant tuning.Entrant) error {
	y.entrants[e.ID] = append(y.entrants[e.ID], entrant)
	return nil
}

func (y *clubYear) Remind(_ context.Context, e tuning.Event, car tuning.Car, wanted bool) error {
	for i := range y.entrants[e.ID] {
		if y.entrants[e.ID][i].Car.ID == car.ID {
			y.entrants[e.ID][i].Reminded = wanted
		}
	}
	return nil
}

func (y *clubYear) WantSheet(_ context.Context, e tuning.Event, car tuning.Car, wanted bool) error {
	for i := range y.entrants[e.ID] {
		if y.entrants[e.ID][i].Car.ID == car.ID {
			y.entrants[e.ID][i].Sheet = wanted
		}
	}
	return nil
}

func (y *clubYear) Leave(_ context.Context, e tuning.Event, car tuning.Car) error {
	before := len(y.entrants[e.ID])
	y.entrants[e.ID] = slices.DeleteFunc(y.entrants[e.ID], func(in tuning.Entrant) bool { return in.Car.ID == car.ID })
	if len(y.entrants[e.ID]) == before {
		return bot.Problemf(tuning.NotFound, "%s is not entered.", car.Name)
	}
	return nil
}

func (y *clubYear) AtPlace(_ context.Context, car tuning.Car, place string) (tuning.PlaceRecord, []learn.Try, error) {
	if len(y.place.Visits) == 0 || y.place.Car.ID != car.ID || !tuning.SamePlace(y.place.Visits[0].Place, place) {
		return tuning.PlaceRecord{Car: car}, nil, nil
	}
	return y.place, y.tries, nil
}

func (y *clubYear) TriesAt(context.Context, tuning.Event) ([]learn.Try, error) { return y.tries, nil }

func (y *clubYear) Tried(context.Context, tuning.Event) ([]tuning.Tried, error) { return y.tried, nil }

func (y *clubYear) Schedule(_ context.Context, _ int64, person string, due []calendar.Due) error {
	y.due[person] = len(due)
	return nil
}

// button finds what the button of a label asks.
func button(t *testing.T, r bot.Reply, label string) string {
	t.Helper()
	for _, a := range r.Actions {
		if a.Label == label {
			return a.Line()
		}
	}
	t.Fatalf("there is no button %q: %+v", label, r.Actions)
	return ""
}

func (y *clubYear) EntriesOf(ctx context.Context, e tuning.Event, person string) ([]tuning.Entrant, int, error) {
	all, err := y.Entrants(ctx, e)
	return bot.EntriesOf(all, person), len(all), err
}

func (y *clubYear) EventMessages(_ context.Context, e tuning.Event, from time.Time) (told []tuning.EventMessage, err error) {
	for _, m := range y.told {
		if m.Event == e.ID && !m.At.Before(from) {
			told = append(told, m)
		}
	}
	return told, nil
}

func (y *clubYear) SaveEventMessage(_ context.Context, m tuning.EventMessage) (tuning.EventMessage, error) {
	m.ID, m.At = int64(len(y.told)+1), y.now
	if y.now.IsZero() {
		m.At = bottest.Morning
	}
	y.told = append(y.told, m)
	return m, nil
}

func (y *clubYear) Deliver(_ context.Context, d calendar.Due, to ...string) error {
	for _, d.Person = range to {
		y.mail = append(y.mail, d)
	}
	return nil
}
