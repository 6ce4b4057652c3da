package notebook

import (
	"context"

	"detent/bot"
	"detent/bot/say"
)

func forgetClicksCommand() bot.Command {
	return offeringNames(declare(bot.Command{Name: "clicks forget", Help: "Forget clicks that you saved", Private: true, Writes: true}, forgetKept))
}

func forgetKept(ctx context.Context, call call, o keptOptions) (bot.Reply, error) {
	car, err := call.FindCar(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	kept, err := call.FindKept(ctx, call.Book, car, "name", o.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	if err := call.Book.ForgetKept(ctx, kept); err != nil {
		return bot.Reply{}, err
	}
	car.Dampers = kept.Dampers
	return bot.Reply{Title: "Forgotten: " + say.KeptName(kept), Text: "The car stays as it stands. This is where they stood:",
		Corners: bot.Standing(car, kept.Setting), Actions: []bot.Action{savedButton(car)}}, nil
}

// keptOptions name clicks that were saved of a car.
type keptOptions struct {
	Name string `name:"name" help:"which of the saved clicks" required:"later"`
	bot.CarOption
}

// offeringNames completes the names of saved clicks.
func offeringNames(c bot.Command) bot.Command {
	return bot.Suggesting(c, "name", func(ctx context.Context, asked bot.Call, book bot.Book, o keptOptions, _ string) ([]bot.Suggestion, error) {
		return offerSaved(ctx, asked, book, o.Car)
	})
}
