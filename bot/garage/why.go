package garage

import (
	"context"
	"fmt"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
)

func whyCommand() bot.Command {
	return declare(bot.Command{Name: "why", Help: "One remedy of an advice in full", Private: true}, explainRemedy)
}

// adviceOptions name one remedy of an advice given earlier.
type adviceOptions struct {
	Advice int64 `name:"advice" help:"the number of the advice, the newest of the main car when not said" min:"1" max:"4503599627370496"`
	Remedy int   `name:"remedy" help:"which of its remedies, the first when not said" min:"1" max:"99"`
}

func explainRemedy(ctx context.Context, call call, o adviceOptions) (bot.Reply, error) {
	given, number, err := givenRemedy(ctx, call, o)
	if err != nil {
		return bot.Reply{}, err
	}
	remedy := showRemedy(given.Car, given.Advice, number)
	reply := bot.Reply{
		Title:    remedy.Say,
		Text:     fmt.Sprintf("Remedy %d of %d for %s. %s", number, len(given.Advice.Remedies), given.Car.Name, remedy.Why),
		Remedies: []bot.Remedy{remedy}, Cautions: say.Cautions(given.Advice.Cautions),
	}
	if remedy.Watch != "" {
		reply.Text += "\nWatch for " + remedy.Watch + "."
	}
	reply.Text += "\nHow sure the trade is: " + remedy.Confidence + "."
	if reply, err = call.explainLearned(ctx, reply, given); err != nil {
		return bot.Reply{}, err
	}
	switch {
	case given.Applied == number:
		reply.Notes = []string{"You have applied this one."}
	case given.Applied != 0:
		reply.Notes = []string{fmt.Sprintf("You applied remedy %d of this advice: ask again before you turn more.", given.Applied)}
	default:
		reply.Actions = []bot.Action{bot.Button("Done: "+shortened(remedy), remedy.Apply)}
	}
	if number < len(given.Advice.Remedies) {
		reply.Actions = append(reply.Actions, bot.Button("Another remedy", whyLine(given.Advice.ID, number+1)))
	}
	reply = judged(reply, given.Car, given.Setting, given.Advice, call.Imperial(), true)
	if model := reply.Remedies[0].Model; model != nil {
		reply.Text += "\nThe model: " + model.Say
	}
	return reply, nil
}

// givenRemedy finds the advice that the line names, and the number of the
// remedy that is meant.
func givenRemedy(ctx context.Context, call call, o adviceOptions) (tuning.Given, int, error) {
	given, err := givenAdvice(ctx, call, o.Advice)
	if err != nil {
		return given, 0, err
	}
	number := max(1, o.Remedy)
	if len(given.Advice.Remedies) == 0 {
		return given, 0, bot.Problemf(tuning.Conflict, "That advice turns no clicks: go through the checks that it names.")
	}
	if number > len(given.Advice.Remedies) {
		return given, 0, bot.Problemf(tuning.Invalid, "Advice %d has %s: name one of them.", given.Advice.ID, say.Count(len(given.Advice.Remedies), "remedy", "remedies"))
	}
	return given, number, nil
}

// givenAdvice finds an advice by its number; 0 is the newest of the main car.
func givenAdvice(ctx context.Context, call call, number int64) (tuning.Given, error) {
	if number != 0 {
		return call.Book.Given(ctx, call.Owner(), number)
	}
	car, err := call.FindCar(ctx, call.Book, "")
	if err != nil {
		return tuning.Given{}, err
	}
	if number, err = call.Book.NewestAdvice(ctx, car); err != nil {
		return tuning.Given{}, err
	}
	if number == 0 {
		return tuning.Given{}, &bot.Problem{Kind: tuning.NotFound, Say: fmt.Sprintf("No advice was given for %s yet: say what it does.", car.Name),
			Actions: []bot.Action{complainAction(car), bot.Button("Where do I start", "/baseline", bot.OfCar(car))}}
	}
	return call.Book.Given(ctx, call.Owner(), number)
}

func whyLine(advice int64, remedy int) string {
	return fmt.Sprintf("/why advice:%d remedy:%d", advice, remedy)
}
