package bot

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"detent/bot/say"
	"detent/bot/spelling"
	"detent/tuning"
	"detent/tuning/calendar"
)

// CarOption names the car that a line is about.
type CarOption struct {
	Car string `name:"car" help:"the car, when it is not the main one" source:"cars"`
}

// numberMark begins the number of a car or an event where its name could
// stand. Buttons use it, so that they find their thing after it was renamed.
const numberMark = "#"

// FindCar reads the car of the asking person that a name or a number means, or
// the main car for "".
func (c Call) FindCar(ctx context.Context, cars Cars, name string) (tuning.Car, error) {
	name, err := c.CarName(ctx, cars, c.Owner(), name)
	if err != nil {
		return tuning.Car{}, err
	}
	car, err := cars.Car(ctx, c.Owner(), name)
	return car, c.nearestCar(ctx, cars, name, err)
}

// FindCase reads the case of the car that FindCar finds.
func (c Call) FindCase(ctx context.Context, book CaseBook, name string) (tuning.Case, error) {
	name, err := c.CarName(ctx, book, c.Owner(), name)
	if err != nil {
		return tuning.Case{}, err
	}
	k, err := book.Case(ctx, c.Owner(), name)
	if err != nil {
		return k, c.nearestCar(ctx, book, name, err)
	}
	k.History.ChecksDue = !c.isNow(k.History.LastAnswer, k.Event)
	k.History.ChecksSeen = c.isNow(k.History.LastAdvice, k.Event)
	return k, nil
}

// CaseBook is what a case is found in.
type CaseBook interface {
	Cars
	Cases
}

// isNow tells whether something was done at the event that the car is at or,
// for a car at no event, today.
func (c Call) isNow(o tuning.Occasion, at tuning.Event) bool {
	if at.ID != 0 {
		return o.Event == at.ID
	}
	return calendar.SameDay(o.At, c.Now(), c.Zone())
}

// nearestCar adds buttons to the refusal of a name that no car has, or of no
// name where several cars may be meant: one for each car that it may be.
func (c Call) nearestCar(ctx context.Context, book Cars, name string, err error) error {
	if kind := tuning.KindOf(err); kind != tuning.NotFound && (kind != tuning.Invalid || name != "") {
		return err
	}
	cars, failed := book.Cars(ctx, c.Owner())
	running := tuning.Running(cars)
	switch {
	case failed != nil:
		return failed
	case name == "" && len(cars) == 0:
		return &Problem{Kind: tuning.NotFound, Say: "You have no car here yet: add one.", Actions: []Action{AddCar}, Err: err}
	case name == "" && len(running) == 0:
		return &Problem{Kind: tuning.NotFound, Say: fmt.Sprintf("Your cars are all retired: /car main car:%s brings one back.", Quote(cars[0].Name)),
			Actions: []Action{Button("Bring it back", "/car main", OfCar(cars[0]))}, Err: err}
	case name == "" && len(running) > 1:
		return &Problem{Kind: tuning.Invalid, Say: "Which car? /car main names the one that is meant when none is said.", Actions: c.askWith(running), Err: err}
	case name == "":
		return err
	}
	names := make([]string, len(cars))
	for i, car := range cars {
		names[i] = car.Name
	}
	near := func(car tuning.Car) bool {
		best, _ := spelling.Nearest(name, names)
		return car.Name == best || strings.Contains(strings.ToLower(car.Name), strings.ToLower(name))
	}
	p := Problemf(tuning.NotFound, "You have no car called %s%s: /car list shows the names.", say.Echo(name), spelling.DidYouMean(name, names))
	p.Actions = c.askWith(slices.DeleteFunc(slices.Clone(cars), func(car tuning.Car) bool { return !near(car) }))
	return p
}

// mostCars is the most cars that are offered at once.
const mostCars = 10

// askWith are the buttons that ask the same line again with one of the cars.
func (c Call) askWith(cars []tuning.Car) []Action {
	var actions []Action
	for _, car := range cars[:min(len(cars), mostCars)] {
		actions = append(actions, Button(car.Name, c.Ask.Line.Without("car").String(), OfCar(car)))
	}
	return actions
}

// CarName returns the name of a person's car whose number a text gives, "#3". Any
// other text it returns as it is, and one that is itself the name of a car too.
func (c Call) CarName(ctx context.Context, book Cars, owner, text string) (string, error) {
	number, ok := numberOf(text)
	if !ok {
		return text, nil
	}
	cars, err := book.Cars(ctx, owner)
	if err != nil {
		return "", err
	}
	named := func(car tuning.Car) bool { return car.Name == text }
	if i := slices.IndexFunc(cars, func(car tuning.Car) bool { return car.ID == number }); i >= 0 && !slices.ContainsFunc(cars, named) {
		return cars[i].Name, nil
	}
	return text, nil
}

// numberOf reads "#12"; ok is false for anything else.
func numberOf(text string) (number int64, ok bool) {
	digits, ok := strings.CutPrefix(text, numberMark)
	number, err := strconv.ParseInt(digits, 10, 64)
	return number, ok && err == nil
}

// FindEvent reads the event that a name or a number means, or for "" the one
// under way or the next.
func (c Call) FindEvent(ctx context.Context, book Events, name string) (tuning.Event, error) {
	event, err := book.Event(ctx, name)
	if tuning.KindOf(err) != tuning.NotFound || name == "" {
		return event, err
	}
	events, failed := book.Events(ctx, c.Now().AddDate(-1, 0, 0))
	if failed != nil {
		return event, failed
	}
	number, numbered := numberOf(name)
	var names []string
	for _, e := range events {
		if numbered && e.ID == number {
			return e, nil
		}
		names = append(names, e.Name)
	}
	return event, Problemf(tuning.NotFound, "There is no event called %s%s: /event list shows the names.", say.Echo(name), spelling.DidYouMean(name, names))
}
