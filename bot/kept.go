package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"detent/bot/phone"
	"detent/bot/say"
	"detent/bot/spelling"
	"detent/tuning"
)

// Shelf keeps clicks under names.
type Shelf interface {
	// SaveKept keeps where a car's clicks stand, put to the event the car is at.
	// A name that other clicks of the car have, whatever its case, is a Conflict.
	SaveKept(ctx context.Context, kept tuning.Kept) (tuning.Kept, error)
	// KeptSetting finds what was kept of a car under a name, whatever its case,
	// or where that is empty under its number.
	KeptSetting(ctx context.Context, car tuning.Car, name string, id int64) (tuning.Kept, error)
	// KeptSettings lists what was kept of a car, newest first: so many, after
	// the first few.
	KeptSettings(ctx context.Context, car tuning.Car, after, most int) ([]tuning.Kept, error)
	// ForgetKept forgets clicks that were kept.
	ForgetKept(ctx context.Context, kept tuning.Kept) error
	// FeltToday is the newest feel with a car's clicks as they stand, nil for none.
	FeltToday(ctx context.Context, car tuning.Car) (*tuning.Feel, error)
}

// FindKept reads the clicks of a car that the name or number in an option
// means. It refuses a name that is not there, or none, with a button for each
// that may be meant.
func (c Call) FindKept(ctx context.Context, book Shelf, car tuning.Car, option, name string) (tuning.Kept, error) {
	const most = 100 // names that are looked through for the one that was meant
	list := Button("Saved clicks", "/clicks saved", OfCar(car))
	name = strings.TrimSpace(name)
	number, numbered := numberOf(name)
	switch {
	case numbered:
		kept, err := book.KeptSetting(ctx, car, "", number)
		if p, ok := ProblemOf(err); ok && p.Kind == tuning.NotFound {
			err = &Problem{Kind: p.Kind, Say: p.Say, Actions: []Action{list}, Err: err}
		}
		return kept, err
	case name != "":
		kept, err := book.KeptSetting(ctx, car, name, 0)
		if tuning.KindOf(err) != tuning.NotFound {
			return kept, err
		}
	}
	all, err := book.KeptSettings(ctx, car, 0, most)
	if err != nil {
		return tuning.Kept{}, err
	}
	if len(all) == 0 {
		return tuning.Kept{}, &Problem{Kind: tuning.NotFound, Say: fmt.Sprintf("No clicks of %s are saved yet: save today's first.", car.Name),
			Actions: []Action{Button("Save today's", "/clicks save", OfCar(car))}}
	}
	if name == "" {
		return tuning.Kept{}, Inquire("Which of the saved clicks?", c.askWithKept(car, option, all)...)
	}
	names := make([]string, len(all))
	for i, k := range all {
		names[i] = k.Name
	}
	best, _ := spelling.Nearest(name, names)
	far := func(k tuning.Kept) bool {
		return k.Name != best && !strings.Contains(strings.ToLower(k.Name), strings.ToLower(name))
	}
	p := Problemf(tuning.NotFound, "No clicks of %s are saved as %s%s.", car.Name, say.Echo(name), spelling.DidYouMean(name, names))
	p.Actions = append(c.askWithKept(car, option, slices.DeleteFunc(slices.Clone(all), far)), list)
	return tuning.Kept{}, p
}

// askWithKept are the buttons that ask the same line again with one of the saved
// clicks.
func (c Call) askWithKept(car tuning.Car, option string, all []tuning.Kept) []Action {
	var actions []Action
	line := c.Ask.Line.Without(option).Without("car").String()
	for _, k := range all[:min(len(all), mostCars)] {
		actions = append(actions, Button(phone.Clip(k.Name, phone.NameColumns), line, OfKept(k).As(option), OfCar(car)))
	}
	return actions
}
