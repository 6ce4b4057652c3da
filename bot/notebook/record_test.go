package notebook_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"detent/bot"
	"detent/bot/bottest"
	"detent/bot/notebook"
	"detent/tuning"
)

// shelf is a record of one member's cars, notes and saved clicks, in memory.
type shelf struct {
	bottest.Settings
	cars    []tuning.Car
	setting map[int64]tuning.Setting // by car
	history tuning.History           // of every car
	event   tuning.Event             // that the cars are at
	notes   []tuning.CarNote
	kept    []tuning.Kept // newest first
	today   *tuning.Feel  // with the clicks of today
	advice  []tuning.Advice
}

// newShelf has a hatch of thirty clicks, which is Robin's main car, and a coupe of
// sixteen. Both stand at their start.
func newShelf(t *testing.T) (*shelf, bottest.Person) {
	box := &shelf{Settings: bottest.NewSettings(), setting: map[int64]tuning.Setting{}, cars: []tuning.Car{
		{ID: 1, Name: "Blue hatch", Owner: "robin", Main: true, Drive: tuning.FrontDrive},
		{ID: 2, Name: "Red coupe", Owner: "robin", Drive: tuning.RearDrive},
	}}
	for i, clicks := range []int{30, 16} {
		box.fit(t, i, clicks)
	}
	return box, bottest.Person{T: t, Commands: notebook.Commands(), Book: box}
}

// fit gives a car two-way dampers of so many clicks, at their start.
func (b *shelf) fit(t *testing.T, car, clicks int) {
	t.Helper()
	d := tuning.Damper{Ways: 2, Count: tuning.FromHard}
	d.Range[tuning.Bump], d.Range[tuning.Rebound] = clicks, clicks
	b.cars[car].Dampers = [tuning.Axles]tuning.Damper{d, d}
	start, err := tuning.Baseline(b.cars[car], tuning.Dry, tuning.DefaultSizes)
	if err != nil {
		t.Fatal(err)
	}
	b.setting[b.cars[car].ID] = start
}

// turn turns an adjuster of the front of a car by so many clicks.
func (b *shelf) turn(car int64, a tuning.Adjuster, clicks int) {
	at := b.setting[car]
	at[tuning.FL][a] += clicks
	at[tuning.FR][a] += clicks
	b.setting[car] = at
}

func (b *shelf) Cars(context.Context, string) ([]tuning.Car, error) { return b.cars, nil }

func (b *shelf) Car(_ context.Context, _, name string) (tuning.Car, error) {
	for _, c := range b.cars {
		if c.Name == name || name == "" && c.Main {
			return c, nil
		}
	}
	return tuning.Car{}, bot.Problemf(tuning.NotFound, "There is no car yet.")
}

func (b *shelf) Case(ctx context.Context, owner, name string) (tuning.Case, error) {
	car, err := b.Car(ctx, owner, name)
	return tuning.Case{Car: car, Setting: b.setting[car.ID], History: b.history, Event: b.event}, err
}

func (b *shelf) SaveCarNote(_ context.Context, note tuning.CarNote) (tuning.CarNote, error) {
	note.At = bottest.Morning
	b.notes = append(b.notes, note)
	return note, nil
}

func (b *shelf) SaveAdvice(_ context.Context, advice tuning.Advice, _ tuning.Setting) (tuning.Advice, error) {
	advice.ID = int64(len(b.advice) + 1)
	b.advice = append(b.advice, advice)
	return advice, nil
}

func (b *shelf) SaveKept(_ context.Context, k tuning.Kept) (tuning.Kept, error) {
	k.ID, k.At, k.Place, k.Felt = int64(len(b.kept)+1), bottest.Morning, b.event.Place, b.today
	b.kept = slices.Insert(b.kept, 0, k)
	return k, nil
}

func (b *shelf) KeptSetting(_ context.Context, car tuning.Car, name string, id int64) (tuning.Kept, error) {
	for _, k := range b.kept {
		if k.Car == car.ID && (name == "" && k.ID == id || strings.EqualFold(k.Name, name)) {
			return k, nil
		}
	}
	return tuning.Kept{}, tuning.Gone{What: tuning.KeptThing}
}

func (b *shelf) KeptSettings(_ context.Context, car tuning.Car, after, most int) (list []tuning.Kept, err error) {
	for _, k := range b.kept {
		if k.Car == car.ID {
			list = append(list, k)
		}
	}
	list = list[min(after, len(list)):]
	return list[:min(most, len(list))], nil
}

func (b *shelf) ForgetKept(_ context.Context, kept tuning.Kept) error {
	b.kept = slices.DeleteFunc(b.kept, func(k tuning.Kept) bool { return k.ID == kept.ID })
	return nil
}

func (b *shelf) FeltToday(context.Context, tuning.Car) (*tuning.Feel, error) { return b.today, nil }

// labels are those of a reply's buttons.
func labels(r bot.Reply) string {
	var all []string
	for _, a := range r.Actions {
		all = append(all, a.Label)
	}
	return strings.Join(all, ", ")
}
