package bot

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"detent/tuning"
)

// garageOf is the cars of one person, and the events of a club.
type garageOf struct {
	cars   []tuning.Car
	events []tuning.Event
	broken error
}

func (g garageOf) Cars(context.Context, string) ([]tuning.Car, error) { return g.cars, g.broken }

func (g garageOf) Car(_ context.Context, _, name string) (tuning.Car, error) {
	for _, c := range g.cars {
		if c.Name == name || name == "" && c.Main {
			return c, nil
		}
	}
	return tuning.Car{}, Problemf(tuning.NotFound, "No car.")
}

func (g garageOf) Case(ctx context.Context, owner, name string) (tuning.Case, error) {
	car, err := g.Car(ctx, owner, name)
	return tuning.Case{Car: car}, err
}

func (g garageOf) Events(context.Context, time.Time) ([]tuning.Event, error) {
	return g.events, g.broken
}

func (g garageOf) Event(_ context.Context, name string) (tuning.Event, error) {
	for _, e := range g.events {
		if e.Name == name || name == "" {
			return e, nil
		}
	}
	return tuning.Event{}, Problemf(tuning.NotFound, "No event.")
}

func (g garageOf) Entrants(context.Context, tuning.Event) ([]tuning.Entrant, error) { return nil, nil }

var someCars = garageOf{
	cars:   []tuning.Car{{ID: 1, Name: "Blue hatch", Main: true}, {ID: 2, Name: "Grey coupe"}, {ID: 3, Name: "#2"}},
	events: []tuning.Event{{ID: 7, Name: "Spring day"}, {ID: 8, Name: "Autumn day"}},
}

func TestFindCar(t *testing.T) {
	for name, want := range map[string]string{"": "Blue hatch", "Grey coupe": "Grey coupe", "#1": "Blue hatch", "#2": "#2"} {
		car, err := Call{}.FindCar(t.Context(), someCars, name)
		if err != nil || car.Name != want {
			t.Errorf("%q finds %q, %v", name, car.Name, err)
		}
	}
	for name, words := range map[string]string{"Blue hutch": "did you mean Blue hatch?", "#9": `no car called "#9"`, "Van": "/car list"} {
		if _, err := (Call{}).FindCar(t.Context(), someCars, name); tuning.KindOf(err) != tuning.NotFound || !strings.Contains(err.Error(), words) {
			t.Errorf("%q: %v, want %q", name, err, words)
		}
	}
	retired := garageOf{cars: []tuning.Car{{ID: 1, Name: "Old van", Retired: true}}}
	if _, err := (Call{}).FindCar(t.Context(), retired, ""); err == nil || !strings.Contains(err.Error(), `/car main car:"Old van"`) {
		t.Errorf("with all cars retired: %v", err)
	}
	broken := garageOf{broken: errors.New("the disk is full")}
	if _, err := (Call{}).FindCar(t.Context(), broken, ""); !errors.Is(err, broken.broken) {
		t.Errorf("what breaks on the way is hidden: %v", err)
	}
}

// The checks are due once at each event, and otherwise once a day of the club.
func TestChecksDue(t *testing.T) {
	now := time.Date(2026, 5, 16, 1, 0, 0, 0, time.UTC)
	call := Call{Ask: Ask{At: now}, Club: tuning.Club{Zone: "America/New_York"}} // still 15 May there
	for _, c := range []struct {
		what  string
		event int64
		last  tuning.Occasion
		due   bool
	}{
		{"the first answer ever", 0, tuning.Occasion{}, true},
		{"an answer that day", 0, tuning.Occasion{At: now.Add(-20 * time.Hour)}, false},
		{"an answer the day before", 0, tuning.Occasion{At: now.Add(-22 * time.Hour)}, true},
		{"the first at an event", 7, tuning.Occasion{At: now, Event: 6}, true},
		{"the second at an event", 7, tuning.Occasion{At: now.AddDate(0, 0, -1), Event: 7}, false},
	} {
		if due := !call.isNow(c.last, tuning.Event{ID: c.event}); due != c.due {
			t.Errorf("%s: due %v", c.what, due)
		}
	}
	if k, err := call.FindCase(t.Context(), someCars, "Van"); err == nil || k.History.ChecksDue {
		t.Errorf("a car that is not there has checks due: %v, %v", k.History.ChecksDue, err)
	}
	if k, err := call.FindCase(t.Context(), someCars, "#1"); err != nil || k.Car.ID != 1 || !k.History.ChecksDue {
		t.Errorf("%+v, %v", k, err)
	}
}

func TestFindEvent(t *testing.T) {
	for name, want := range map[string]int64{"": 7, "Autumn day": 8, "#8": 8} {
		if e, err := (Call{}).FindEvent(t.Context(), someCars, name); err != nil || e.ID != want {
			t.Errorf("%q finds %d, %v", name, e.ID, err)
		}
	}
	for name, words := range map[string]string{"Autum day": "did you mean Autumn day?", "#99": "/event list"} {
		if _, err := (Call{}).FindEvent(t.Context(), someCars, name); tuning.KindOf(err) != tuning.NotFound || !strings.Contains(err.Error(), words) {
			t.Errorf("%q: %v, want %q", name, err, words)
		}
	}
}
