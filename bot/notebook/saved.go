package notebook

import (
	"context"
	"fmt"
	"strings"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
)

func savedClicksCommand() bot.Command {
	return declare(bot.Command{Name: "clicks saved", Help: "The clicks you saved, newest first, and how they felt", Private: true}, listSaved)
}

type savedOptions struct {
	bot.CarOption
	bot.MoreOption
}

// onPage is the most saved clicks that a message lists, with two buttons each.
const onPage = 5

func listSaved(ctx context.Context, call call, o savedOptions) (bot.Reply, error) {
	car, err := call.FindCar(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	page, err := call.Book.KeptSettings(ctx, car, o.From, onPage+1)
	if err != nil {
		return bot.Reply{}, err
	}
	switch {
	case len(page) == 0 && o.From > 0:
		return bot.Reply{Title: "No more saved clicks of " + car.Name, Actions: []bot.Action{savedButton(car)}}, nil
	case len(page) == 0:
		return bot.Reply{Title: "No clicks of " + car.Name + " are saved yet", Text: "Save them when the car feels right, and load them again another day.",
			Actions: []bot.Action{saveButton("Save today's clicks", car)}}, nil
	}
	shown := min(len(page), onPage)
	reply := call.showSaved(car, page, shown, o.From)
	for ; shown > 1 && !reply.Whole(); shown-- {
		reply = call.showSaved(car, page, shown-1, o.From)
	}
	return reply, nil
}

// showSaved lists the first few of a page, each with its buttons.
func (c call) showSaved(car tuning.Car, page []tuning.Kept, shown, from int) bot.Reply {
	reply := bot.Reply{Title: "Saved clicks of " + car.Name, View: bot.View{Size: phone.List}}
	var lines []string
	for _, k := range page[:shown] {
		lines = append(lines, k.Name+": "+say.KeptDay(k, c.Zone())+"; "+say.Marks(k.Felt)+".")
		label := phone.Clip(k.Name, labelColumns)
		reply.Actions = append(reply.Actions, loadButton("Load "+label, car, k), compareButton("Compare "+label, car, k))
	}
	reply.Text = strings.Join(lines, "\n")
	if shown < len(page) {
		reply.Actions = append(reply.Actions, bot.Button("More", fmt.Sprintf("/clicks saved from:%d", from+shown), bot.OfCar(car)))
	}
	return reply
}

// labelColumns is how much of a name stands on a button behind a word.
const labelColumns = 14

func savedButton(car tuning.Car) bot.Action {
	return bot.Button("Saved clicks", "/clicks saved", bot.OfCar(car))
}

// saveButton saves the clicks as they stand, under a name that a form asks for.
func saveButton(label string, car tuning.Car) bot.Action {
	return bot.Button(label, "/clicks save", bot.OfCar(car))
}

func loadButton(label string, car tuning.Car, k tuning.Kept) bot.Action {
	return bot.Button(label, "/clicks load", bot.OfKept(k), bot.OfCar(car))
}

func compareButton(label string, car tuning.Car, k tuning.Kept) bot.Action {
	return bot.Button(label, "/clicks compare", bot.OfKept(k), bot.OfCar(car))
}

// offerSaved suggests the names of what was saved of a car.
func offerSaved(ctx context.Context, asked bot.Call, book bot.Book, car string) ([]bot.Suggestion, error) {
	of, err := asked.FindCar(ctx, book, car)
	if err != nil {
		return nil, err
	}
	saved, err := book.KeptSettings(ctx, of, 0, 100)
	var all []bot.Suggestion
	for _, k := range saved {
		all = append(all, bot.Suggestion{Value: k.Name, Label: k.Name + ", " + say.KeptDay(k, asked.Zone())})
	}
	return all, err
}
