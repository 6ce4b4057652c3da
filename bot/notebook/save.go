package notebook

import (
	"cmp"
	"context"
	"strings"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

func saveClicksCommand() bot.Command {
	return declare(bot.Command{Name: "clicks save", Help: "Save today's clicks under a name, to go back to", Private: true, Writes: true,
		Form: []string{"name"}}, saveClicks)
}

type saveOptions struct {
	Name string `name:"name" help:"what to call them, like Dry fast" required:"yes"`
	bot.CarOption
}

// todayWord means the clicks as they stand, where a name could stand.
const todayWord = "today"

func saveClicks(ctx context.Context, call call, o saveOptions) (bot.Reply, error) {
	c, err := call.FindRunning(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	if err := bot.RequireDampers(c.Car); err != nil {
		return bot.Reply{}, err
	}
	name, err := call.freeName(ctx, c.Car, o.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	kept, err := call.Book.SaveKept(ctx, tuning.Kept{Car: c.Car.ID, Name: name, Event: c.Event.ID, Weather: call.conditions(c),
		Setting: c.Setting, Dampers: c.Car.Dampers})
	if err != nil {
		return bot.Reply{}, err
	}
	reply := bot.Reply{
		Title: "Saved as " + say.KeptName(kept), Corners: bot.Standing(c.Car, c.Setting),
		Text:    phone.Clip(c.Car.Name, phone.NameColumns) + ", " + say.KeptDay(kept, call.Zone()) + ": " + say.FeltWith(kept.Felt, call.Imperial()) + ".",
		Actions: []bot.Action{savedButton(c.Car), bot.Button("How did it feel", "/feel", bot.OfCar(c.Car))},
	}
	if c.History.Unrecorded {
		reply.View.Line = assumedStart
		reply.Actions = append(reply.Actions, whereTheyStand(c.Car))
	}
	return reply, nil
}

// assumedStart is said where nobody has said where the clicks stand.
const assumedStart = "I assume the clicks are at the start. Different? Tell me."

func whereTheyStand(car tuning.Car) bot.Action {
	return bot.Button("Where they stand", "/clicks show", bot.OfCar(car))
}

// freeName checks a name for clicks of a car.
func (c call) freeName(ctx context.Context, car tuning.Car, typed string) (string, error) {
	if strings.TrimSpace(typed) == "" {
		return "", bot.Problemf(tuning.Invalid, "Give these clicks a name, for example name:%s.", bot.Quote("Dry fast"))
	}
	name, err := tuning.CheckName(typed)
	if err != nil {
		return "", err
	}
	if strings.EqualFold(name, todayWord) || strings.HasPrefix(name, "#") {
		return "", bot.Problemf(tuning.Invalid, "%s means something else here: choose another name.", say.Echo(name))
	}
	switch taken, err := c.Book.KeptSetting(ctx, car, name, 0); tuning.KindOf(err) {
	case "":
		p := bot.Problemf(tuning.Conflict, "Clicks of %s are saved as %s already: choose another name.", car.Name, say.KeptName(taken))
		p.Actions = []bot.Action{saveButton("Another name", car), savedButton(car)}
		return "", p
	case tuning.NotFound:
		return name, nil
	default:
		return "", err
	}
}

// conditions are how wet it is: as the driver said today, else as the event
// expects.
func (c call) conditions(k tuning.Case) tuning.Conditions {
	var said tuning.Conditions
	if f := k.History.LastFeel; f != nil && calendar.SameDay(f.At, c.Now(), c.Zone()) {
		said = f.Conditions
	}
	return cmp.Or(said, tuning.Conditions(k.Event.Weather.Known()))
}
