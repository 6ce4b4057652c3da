package garage

import (
	"context"
	"fmt"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
)

func applyCommand() bot.Command {
	return declare(bot.Command{Name: "apply", Help: "Record that you turned what an advice said", Private: true, Writes: true}, applyRemedy)
}

func applyRemedy(ctx context.Context, call call, o adviceOptions) (bot.Reply, error) {
	given, number, err := givenRemedy(ctx, call, o)
	if err != nil {
		return bot.Reply{}, err
	}
	car, remedy := given.Car, given.Advice.Remedies[number-1]
	switch {
	case given.Applied == number && standsAfter(given.Stands, remedy.Moves):
		return bot.Reply{Title: changeTitle("Already noted", car, remedy.Reason(), remedy.Moves), Text: "It counts once, however often you press.", Corners: bot.Standing(car, given.Stands), View: bot.View{Quiet: true, NoTable: true}}, nil
	case given.Declined:
		return bot.Reply{}, bot.Problemf(tuning.Conflict, "You declined suggestion %d: ask your coach for another.", given.Advice.ID)
	case car.Retired:
		return bot.Reply{}, bot.Problemf(tuning.Conflict, "%s is retired: /car main brings it back.", car.Name)
	case given.Applied != 0 || given.Stands != given.Setting:
		return refuseStale(ctx, call, given)
	}
	if err := call.CheckSound(car, given.Notes); err != nil && remedy.Kind != tuning.TakeBack {
		return bot.Reply{}, err
	}
	change := tuning.Change{At: call.Now(), By: call.Owner(), Reason: remedy.Reason(), Advice: given.Advice.ID, Remedy: number,
		Undoes: remedy.Undoes, Moves: remedy.Moves, Turned: true}
	if given.Advice.Complaint.Made() {
		change.Complaint = &given.Advice.Complaint
	}
	if change, err = call.Book.Record(ctx, car, change); err != nil {
		return bot.Reply{}, err
	}
	return sayChanged(car, given.Stands, change, "Noted"), nil
}

// standsAfter tells whether a setting is where the moves end.
func standsAfter(at tuning.Setting, moves []tuning.Move) bool {
	for _, m := range moves {
		if at[m.Corner][m.Adjuster] != m.To {
			return false
		}
	}
	return true
}

// refuseStale refuses an advice whose clicks have moved since, says why, and
// gives a fresh answer to the same question.
func refuseStale(ctx context.Context, call call, given tuning.Given) (bot.Reply, error) {
	c, evidence, err := call.Book.LearnedCase(ctx, call.Owner(), given.Car.Name, given.Advice.Complaint)
	if err != nil {
		return bot.Reply{}, err
	}
	why := "the clicks have moved since"
	if len(c.History.Changes) > 0 {
		if moves := tuning.Turned(c.History.Changes[0].Moves); len(moves) > 0 {
			why = fmt.Sprintf("the clicks have moved since (%s)", say.Turns(c.Car, moves))
		}
	}
	advice := given.Advice
	if given.Coach != "" {
		return bot.Reply{}, bot.Problemf(tuning.Conflict, "Suggestion %d has lapsed: %s. Ask your coach again.", advice.ID, why)
	}
	var fresh bot.Reply
	switch remedy := advice.Remedies[0]; {
	case remedy.Kind.Brings() && standsAfter(given.Stands, remedy.Moves):
		return bot.Reply{Title: changeTitle("Nothing to turn", c.Car, remedy.Reason(), nil), Corners: bot.Standing(c.Car, given.Stands)}, nil
	case remedy.Kind.Brings():
		fresh, err = call.Instead(ctx, bringLine(remedy, c.Car))
	case advice.Complaint.Made():
		fresh, err = giveAdvice(ctx, call, c, call.knownOf(c, advice.Complaint, evidence))
	default:
		fresh, err = giveBaseline(ctx, call, c, advice.Complaint.Weather)
	}
	if err != nil {
		return bot.Reply{}, err
	}
	return outdated(advice.ID, why, fresh), nil
}

// outdated refuses an advice that no longer fits, with a fresh one below. It
// says as much as there is room for.
func outdated(advice int64, why string, fresh bot.Reply) (refusal bot.Reply) {
	for _, say := range []string{
		fmt.Sprintf("Advice %d is out of date: %s. Nothing was changed. Do this now:", advice, why),
		fmt.Sprintf("Advice %d is out of date: the clicks have moved since. Nothing was changed. Do this now:", advice),
		"Out of date, and nothing was changed. Now:",
	} {
		if refusal = bot.Outdated(say, fresh); refusal.Whole() {
			break
		}
	}
	return refusal
}

// bringLine is the line that gave an advice which brings a setting from
// elsewhere.
func bringLine(remedy tuning.Remedy, car tuning.Car) string {
	if remedy.Kind == tuning.CopyCar {
		return fmt.Sprintf("/clicks copy from:#%d car:#%d", remedy.Of, car.ID)
	}
	return fmt.Sprintf("/clicks load name:#%d car:#%d", remedy.Of, car.ID)
}

// sayChanged says a change that was recorded, and what can follow it.
func sayChanged(car tuning.Car, stood tuning.Setting, change tuning.Change, word string) bot.Reply {
	return bot.Reply{
		Title: changeTitle(word, car, change.Reason, change.Moves), Corners: bot.Standing(car, settingAfter(stood, change.Moves)),
		Text:     phone.Clip(car.Name, phone.NameColumns) + ". " + afterChange(change),
		Cautions: say.Cautions(tuning.BaselineCautions(car, change.Moves)),
		Actions:  append(backActions(car, change), feelActions(car)...),
		View:     bot.View{Quiet: true, Moves: bot.CornersOf(car, tuning.Turned(change.Moves)), Care: bot.CareFor(car, change.Moves)},
	}
}

// afterChange says what comes after a change: to feel it, unless nothing was
// turned.
func afterChange(change tuning.Change) string {
	if change.Reason == tuning.ByUndo && !change.Turned {
		return "The record stands as it did; nothing counts as turned."
	}
	return "Drive a few laps, then tell me how it felt."
}

// backActions take a change back, unless it did that itself, and show the log.
func backActions(car tuning.Car, change tuning.Change) []bot.Action {
	log := bot.Button("What did I change", "/log", bot.OfCar(car))
	if change.Reason == tuning.ByUndo {
		return []bot.Action{log}
	}
	return []bot.Action{undoButton("Take it back", car, change.ID), log}
}

// changeTitle says in one line what was recorded, also when nothing had to
// turn.
func changeTitle(word string, car tuning.Car, why tuning.Reason, moves []tuning.Move) string {
	turned := tuning.Turned(moves)
	switch {
	case len(turned) > 0:
		return word + ": " + say.Turns(car, turned)
	case why == tuning.ByBaseline:
		return word + ": " + car.Name + " stands at its start"
	case why == tuning.ByLoading:
		return word + ": " + car.Name + " stands as you saved it"
	case why == tuning.ByCopying:
		return word + ": " + car.Name + " stands as the other car does"
	}
	return word + ": the clicks are as they were"
}

// settingAfter is the setting once moves are made; the book has checked them.
func settingAfter(at tuning.Setting, moves []tuning.Move) tuning.Setting {
	for _, m := range moves {
		at[m.Corner][m.Adjuster] = m.To
	}
	return at
}
