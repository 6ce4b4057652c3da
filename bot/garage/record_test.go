package garage_test

import (
	"context"
	"slices"
	"testing"
	"time"

	"detent/bot"
	"detent/bot/bottest"
	"detent/bot/garage"
	"detent/tuning"
	"detent/tuning/calendar"
	"detent/tuning/learn"
)

// toolbox is a record of one member's cars: in memory, with one history.
type toolbox struct {
	unseen tuning.Unseen
	bottest.Settings
	cars    []tuning.Car
	setting tuning.Setting // of every car
	history tuning.History
	event   tuning.Event // that the cars are at
	in      []tuning.Event
	feels   []tuning.Feel
	notes   []tuning.CarNote
	given   []tuning.Given
	search  *tuning.Search
	left    []string
	learned learn.Evidence // of every car
}

// twoWay is a damper of two adjusters of so many clicks.
func twoWay(clicks int, count tuning.Count) tuning.Damper {
	d := tuning.Damper{Ways: 2, Count: count}
	d.Range[tuning.Bump], d.Range[tuning.Rebound] = clicks, clicks
	return d
}

// newToolbox is a hatch of thirty clicks that stands at its start.
func newToolbox(t *testing.T) (*toolbox, bottest.Person) {
	d := twoWay(30, tuning.FromHard)
	car := tuning.Car{ID: 1, Name: "Blue hatch", Owner: "robin", Main: true, Drive: tuning.FrontDrive, Engine: tuning.FrontEngine,
		Tyre: tuning.RoadTyre, Aero: tuning.NoAero, Use: tuning.TrackUse, Dampers: [tuning.Axles]tuning.Damper{d, d}}
	box := &toolbox{Settings: bottest.NewSettings(), cars: []tuning.Car{car}}
	var err error
	if box.setting, err = tuning.Baseline(car, tuning.Dry, tuning.DefaultSizes); err != nil {
		t.Fatal(err)
	}
	return box, bottest.Person{T: t, Commands: garage.Commands(), Book: box}
}

// Unseen is what a coach wrote and was not read.
func (b *toolbox) Unseen(context.Context, string) (tuning.Unseen, error) { return b.unseen, nil }

func (b *toolbox) Cars(context.Context, string) ([]tuning.Car, error) { return b.cars, nil }

func (b *toolbox) Car(_ context.Context, _, name string) (tuning.Car, error) {
	for _, c := range b.cars {
		if c.Name == name || name == "" && c.Main {
			return c, nil
		}
	}
	return tuning.Car{}, bot.Problemf(tuning.NotFound, "There is no car yet.")
}

func (b *toolbox) SaveCar(_ context.Context, car tuning.Car) (tuning.Car, error) {
	for i, c := range b.cars {
		if c.ID == car.ID {
			b.cars[i] = car
			return car, nil
		}
	}
	car.ID = int64(len(b.cars) + 1)
	b.cars = append(b.cars, car)
	return car, nil
}

func (b *toolbox) FitDampers(_ context.Context, car tuning.Car, axle tuning.Axle, start []tuning.Move) error {
	for i, c := range b.cars {
		if c.ID == car.ID {
			b.cars[i].Dampers[axle] = car.Dampers[axle]
		}
	}
	for _, m := range start {
		b.setting[m.Corner][m.Adjuster] = m.To
	}
	return nil
}

func (b *toolbox) SaveCurve(_ context.Context, car tuning.Car, axle tuning.Axle, table *tuning.ForceTable) error {
	b.cars[car.ID-1].Curves[axle] = table
	return nil
}

func (b *toolbox) Case(ctx context.Context, owner, name string) (tuning.Case, error) {
	car, err := b.Car(ctx, owner, name)
	return tuning.Case{Car: car, Setting: b.setting, History: b.history, Event: b.event}, err
}

func (b *toolbox) Record(_ context.Context, _ tuning.Car, change tuning.Change) (tuning.Change, error) {
	change.ID = int64(len(b.history.Changes) + 1)
	for _, m := range change.Moves {
		b.setting[m.Corner][m.Adjuster] = m.To
	}
	for i := range b.history.Changes {
		b.history.Changes[i].Undone = b.history.Changes[i].Undone || b.history.Changes[i].ID == change.Undoes
	}
	for i := range b.given {
		if b.given[i].Advice.ID == change.Advice {
			b.given[i].Applied = change.Remedy
		}
	}
	b.history.Changes = slices.Insert(b.history.Changes, 0, change)
	return change, nil
}

func (b *toolbox) Log(_ context.Context, _ tuning.Car, page int) (entries []tuning.Logged, more bool, err error) {
	if page > 1 {
		return nil, false, nil
	}
	for _, n := range slices.Backward(b.notes) {
		entries = append(entries, tuning.Logged{Note: &n})
	}
	for _, f := range slices.Backward(b.feels) {
		entries = append(entries, tuning.Logged{Feel: &f})
	}
	for _, c := range b.history.Changes {
		entries = append(entries, tuning.Logged{Change: c})
	}
	return entries[:min(2, len(entries))], len(entries) > 2, nil
}

func (b *toolbox) SaveFeel(_ context.Context, feel tuning.Feel) (tuning.Feel, error) {
	b.feels = append(b.feels, feel)
	b.history.LastFeel = &feel
	return feel, nil
}

func (b *toolbox) SaveAdvice(_ context.Context, advice tuning.Advice, at tuning.Setting) (tuning.Advice, error) {
	advice.ID = int64(len(b.given) + 1)
	b.given = append(b.given, tuning.Given{Car: b.cars[0], Advice: advice, Setting: at})
	return advice, nil
}

func (b *toolbox) NewestAdvice(context.Context, tuning.Car) (int64, error) {
	return int64(len(b.given)), nil
}

func (b *toolbox) Given(_ context.Context, _ string, id int64) (tuning.Given, error) {
	if id > int64(len(b.given)) {
		return tuning.Given{}, bot.Problemf(tuning.NotFound, "There is no advice %d.", id)
	}
	given := b.given[id-1]
	given.Stands, given.Car, given.Notes = b.setting, b.cars[0], b.history.LastNotes()
	return given, nil
}

func (b *toolbox) LearnedCase(ctx context.Context, owner, name string, _ tuning.Complaint) (tuning.Case, learn.Evidence, error) {
	k, err := b.Case(ctx, owner, name)
	return k, b.learned, err
}

func (b *toolbox) LearnedAll(context.Context, tuning.Car) (learn.Evidence, error) {
	return b.learned, nil
}

func (b *toolbox) Search(context.Context, tuning.Car, tuning.Weather) (tuning.Search, error) {
	if b.search == nil || b.search.Why != "" {
		return tuning.Search{}, bot.Problemf(tuning.NotFound, "No search.")
	}
	return *b.search, nil
}

func (b *toolbox) SaveSearch(_ context.Context, search tuning.Search) (tuning.Search, error) {
	b.search = &search
	return search, nil
}

func (b *toolbox) Events(context.Context, time.Time) ([]tuning.Event, error) { return b.in, nil }

func (b *toolbox) Event(_ context.Context, name string) (tuning.Event, error) {
	for _, e := range b.in {
		if e.Name == name {
			return e, nil
		}
	}
	return tuning.Event{}, bot.Problemf(tuning.NotFound, "No event.")
}

func (b *toolbox) Entrants(context.Context, tuning.Event) ([]tuning.Entrant, error) {
	return []tuning.Entrant{{Person: "robin", Car: b.cars[0]}}, nil
}

func (b *toolbox) Leave(_ context.Context, e tuning.Event, _ tuning.Car) error {
	b.left = append(b.left, e.Name)
	return nil
}

func (b *toolbox) Schedule(context.Context, int64, string, []calendar.Due) error { return nil }

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
