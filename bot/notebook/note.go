package notebook

import (
	"cmp"
	"context"
	"strings"

	"detent/bot"
	"detent/bot/reading"
	"detent/bot/say"
	"detent/tuning"
)

func noteCommand() bot.Command {
	return declare(bot.Command{Name: "note", Help: "Write down what was changed other than clicks", Private: true, Writes: true,
		Form: []string{"text", "pressures"}}, noteCar)
}

type noteOptions struct {
	What      tuning.Subject `name:"what" help:"what it is about" required:"yes"`
	Text      string         `name:"text" help:"what was changed, in your own words"`
	Pressures string         `name:"pressures" help:"like 2.1 for all, or front 2.1 rear 2.0"`
	Heat      tuning.Heat    `name:"heat" help:"whether the pressures were taken cold, as when not said, or hot"`
	bot.CarOption
}

func noteCar(ctx context.Context, call call, o noteOptions) (bot.Reply, error) {
	car, err := call.FindCar(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	if car.Retired {
		return bot.Reply{}, bot.Problemf(tuning.Conflict, "%s is retired: /car main brings it back.", car.Name)
	}
	note := tuning.CarNote{Car: car.ID, Person: call.Owner(), What: o.What, Text: strings.TrimSpace(o.Text)}
	if err := o.write(&note, call.Imperial()); err != nil {
		return bot.Reply{}, err
	}
	if note, err = call.Book.SaveCarNote(ctx, note); err != nil {
		return bot.Reply{}, err
	}
	reply := bot.Reply{Title: "Noted: " + say.CarNote(note, call.Imperial()), Text: "It stands in the log of " + car.Name + ".",
		Actions: []bot.Action{bot.Button("Show the log", "/log", bot.OfCar(car)), bot.Button("How did it feel", "/feel", bot.OfCar(car))}}
	if note.What.Refits() {
		reply.Notes = []string{"Other " + string(note.What) + " may want other clicks than those that felt best before."}
	}
	return reply, nil
}

// write checks the words and the pressures of a note.
func (o noteOptions) write(note *tuning.CarNote, imperial bool) error {
	switch {
	case note.Text == "" && o.Pressures == "" && o.What == tuning.AboutPressures:
		return bot.Problemf(tuning.Invalid, "A note needs words or numbers: add pressures:%s.", bot.Quote("front 2.1 rear 2.0"))
	case note.Text == "" && o.Pressures == "":
		return bot.Problemf(tuning.Invalid, "A note needs words: add text:%s.", bot.Quote("what was changed"))
	case len([]rune(note.Text)) > tuning.MaxNotes:
		return bot.Problemf(tuning.Limit, "Keep the text under %d characters.", tuning.MaxNotes)
	case o.Pressures == "" && o.Heat != "":
		return bot.Problemf(tuning.Invalid, "Say which pressures were taken %s: add pressures:2.1.", o.Heat)
	case o.Pressures == "":
		return nil
	}
	pressures, heat, err := reading.Pressures(o.Pressures, imperial)
	if err == nil && heat != "" && o.Heat != "" && heat != o.Heat {
		err = bot.Problemf(tuning.Invalid, "You said both cold and hot: note one, then the other.")
	}
	note.Pressures, note.Heat = pressures, cmp.Or(o.Heat, heat, tuning.TakenCold)
	return err
}
