package season

import (
	"context"
	"fmt"
	"strings"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

func tellPlaceCommand() bot.Command {
	return declare(bot.Command{Name: "event place", Help: "What worked for your car at an event's place: best feel, clicks, what helped", Private: true}, tellPlace)
}

type placeOptions struct {
	eventOption
	bot.CarOption
	bot.MoreOption
}

// tellPlace tells all that the place of an event remembers of a car.
func tellPlace(ctx context.Context, call call, o placeOptions) (bot.Reply, error) {
	e, err := call.FindEvent(ctx, call.Book, o.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	if e.Place == "" {
		return bot.Reply{}, bot.Problemf(tuning.Invalid, "Nobody has said where %s is: /event show has what is known.", e.Name)
	}
	car, err := call.carAt(ctx, e, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	record, tries, err := call.Book.AtPlace(ctx, car, e.Place)
	if err != nil {
		return bot.Reply{}, err
	}
	memory, ok := record.Memory()
	if !ok {
		return bot.Reply{}, bot.Problemf(tuning.NotFound, "Nothing is on record of %s at %s yet: /feel after a run there changes that.", car.Name, e.Place)
	}
	reply := bot.Reply{Title: car.Name + " at " + e.Place, Text: strings.Join(say.Place(memory, tries, call.Zone(), call.Imperial()), "\n")}
	if moves := movesThere(memory, e.Weather.Known()); len(moves) > 0 {
		reply.Cautions, reply.View.Care = guideCautions(), bot.CareFor(car, moves)
		reply.Actions = wayBack(memory, e.Weather.Known())
	}
	reply.Actions = append(reply.Actions, bot.Button("Clicks", "/clicks show", bot.OfCar(car)))
	return o.Paged(reply, "/event place", bot.OfEvent(e), bot.OfCar(car)), nil
}

// carAt is the asking person's car of a name, or for "" the one they entered in
// an event, else their main car.
func (c call) carAt(ctx context.Context, e tuning.Event, name string) (tuning.Car, error) {
	if name == "" {
		own, _, err := c.Book.EntriesOf(ctx, e, c.Owner())
		if err != nil {
			return tuning.Car{}, err
		}
		if len(own) > 0 {
			return own[0].Car, nil
		}
	}
	return c.FindCar(ctx, c.Book, name)
}

// movesThere are all moves that a place names: to the bests and to where it was
// left.
func movesThere(m tuning.PlaceMemory, weather tuning.Weather) []tuning.Move {
	if m.Today.Unrecorded {
		return nil
	}
	moves := m.Toward(m.Last)
	for _, b := range m.For(weather) {
		moves = append(moves, m.Toward(b.Stood)...)
	}
	return moves
}

// mostWayBack is how many buttons lead back to a best.
const mostWayBack = 3

// wayBack are the buttons that record that the clicks were turned to where they
// stood at the best, an axle's adjuster each: where one best is meant, and few
// adjusters stand elsewhere.
func wayBack(m tuning.PlaceMemory, weather tuning.Weather) []bot.Action {
	bests := m.For(weather)
	if len(bests) != 1 || bests[0].Unrecorded || m.Today.Unrecorded {
		return nil
	}
	then := bests[0].Setting
	var actions []bot.Action
	for axle, d := range m.Car.Dampers {
		left, right := tuning.Axle(axle).Corners()[0], tuning.Axle(axle).Corners()[1]
		for _, a := range d.Adjusters() {
			stays := m.Today.Setting[left][a] == then[left][a] && m.Today.Setting[right][a] == then[right][a]
			if stays || bests[0].Refitted[axle] {
				continue
			}
			if then[left][a] != then[right][a] {
				return nil
			}
			to := d.Counted(a, then[left][a])
			actions = append(actions, bot.Button(fmt.Sprintf("%s %s to %d", say.Capital(tuning.Axle(axle).String()), d.Label(a), to),
				fmt.Sprintf("/clicks set at:%s adjuster:%s to:%d turned:yes", tuning.Axle(axle), a, to), bot.OfCar(m.Car)))
		}
	}
	if len(actions) > mostWayBack {
		return nil
	}
	return actions
}

// Memory says in short lines what the place of an event remembers of a car, what
// matters most first; nothing where the car never was there.
func Memory(ctx context.Context, book bot.Season, club tuning.Club, e tuning.Event, car tuning.Car) ([]string, error) {
	if e.Place == "" {
		return nil, nil
	}
	record, tries, err := book.AtPlace(ctx, car, e.Place)
	if err != nil {
		return nil, err
	}
	memory, ok := record.Memory()
	if !ok {
		return nil, nil
	}
	return say.PlaceShortly(memory, tries, e.Weather.Known(), calendar.ClubZone(club)), nil
}

// placeButton leads to all that the place of an event remembers of a car.
func placeButton(e tuning.Event, car tuning.Car) bot.Action {
	return bot.Button("What worked here", "/event place", bot.OfEvent(e), bot.OfCar(car))
}
