package bot

import (
	"context"
	"fmt"

	"detent/bot/say"
	"detent/tuning"
)

func whyCommands() []Command {
	return []Command{{Name: "why", Help: "One remedy of an advice in full", Private: true, Answer: why, Options: adviceOptions}}
}

// adviceOptions name one remedy of an advice given earlier.
var adviceOptions = []Option{
	{Name: "advice", Help: "the number of the advice", Kind: Whole, Required: true, Min: 1, Max: 1 << 52},
	{Name: "remedy", Help: "which of its remedies, the first when not said", Kind: Whole, Min: 1, Max: 99},
}

func why(ctx context.Context, call Call) (Reply, error) {
	given, number, err := givenRemedy(ctx, call)
	if err != nil {
		return Reply{}, err
	}
	remedy := showRemedy(given.Car, given.Advice, number)
	reply := Reply{
		Title:    remedy.Say,
		Text:     fmt.Sprintf("Remedy %d of %d for %s. %s", number, len(given.Advice.Remedies), given.Car.Name, remedy.Why),
		Remedies: []Remedy{remedy}, Cautions: say.Cautions(given.Advice.Cautions),
	}
	if remedy.Watch != "" {
		reply.Text += "\nWatch for " + remedy.Watch + "."
	}
	reply.Text += "\nHow sure the trade is: " + remedy.Confidence + "."
	switch {
	case given.Applied == number:
		reply.Notes = []string{"You have applied this one."}
	case given.Applied != 0:
		reply.Notes = []string{fmt.Sprintf("You applied remedy %d of this advice: ask again before you turn more.", given.Applied)}
	default:
		reply.Actions = []Action{{"Done: " + remedy.short(), remedy.Apply}}
	}
	if number < len(given.Advice.Remedies) {
		reply.Actions = append(reply.Actions, Action{"Another remedy", whyLine(given.Advice.ID, number+1)})
	}
	return judged(reply, given.Car, given.Setting, given.Advice, call.imperial()), nil
}

// givenRemedy finds the advice that the line names, and the number of the
// remedy that is meant.
func givenRemedy(ctx context.Context, call Call) (tuning.Given, int, error) {
	given, err := call.Book.Given(ctx, call.owner(), int64(call.Args.Whole("advice")))
	if err != nil {
		return given, 0, err
	}
	number := max(1, call.Args.Whole("remedy"))
	if number > len(given.Advice.Remedies) {
		return given, 0, tuning.Problemf(tuning.Invalid, "Advice %d has %s: name one of them.", given.Advice.ID, say.Count(len(given.Advice.Remedies), "remedy", "remedies"))
	}
	return given, number, nil
}

func whyLine(advice int64, remedy int) string {
	return fmt.Sprintf("/why advice:%d remedy:%d", advice, remedy)
}
