package garage

import (
	"context"
	"fmt"
	"slices"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
)

func undoCommand() bot.Command {
	return declare(bot.Command{Name: "undo", Help: "Take the last change back", Private: true, Writes: true}, undoChange)
}

type undoOptions struct {
	bot.CarOption
	Change int64 `name:"change" help:"the change that is meant, the last when not said" min:"1" max:"4503599627370496"`
}

func undoChange(ctx context.Context, call call, o undoOptions) (bot.Reply, error) {
	c, err := call.FindRunning(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	last, ok := undoable(c)
	if o.Change != 0 && (!ok || last.ID != o.Change) {
		return notLast(c, o.Change)
	}
	if !ok {
		return bot.Reply{}, bot.Problemf(tuning.Conflict, "There is no change of %s that can be taken back: /log shows what was changed.", c.Car.Name)
	}
	change, err := call.Book.Record(ctx, c.Car, tuning.Change{At: call.Now(), By: call.Owner(), Reason: tuning.ByUndo,
		Undoes: last.ID, Moves: tuning.Backward(last.Moves), Turned: !last.Corrects()})
	if err != nil {
		return bot.Reply{}, err
	}
	return sayChanged(c.Car, c.Setting, change, "Taken back"), nil
}

// notLast answers a press on an old button: the change is taken back already,
// or others have come after it.
func notLast(c tuning.Case, number int64) (bot.Reply, error) {
	i := slices.IndexFunc(c.History.Changes, func(change tuning.Change) bool { return change.ID == number })
	if i < 0 {
		return bot.Reply{}, bot.Problemf(tuning.NotFound, "Change %d is none of %s that can be taken back: /log shows its changes.", number, c.Car.Name)
	}
	if change := c.History.Changes[i]; change.Undone {
		return bot.Reply{Title: "Already taken back: " + say.Turns(c.Car, tuning.Turned(change.Moves)),
			Text: "It counts once, however often you press.", Corners: bot.Standing(c.Car, c.Setting), View: bot.View{Quiet: true, NoTable: true}}, nil
	}
	return bot.Reply{}, bot.Problemf(tuning.Conflict, "Other changes of %s have come after that one: /log shows them, /undo takes the last back.", c.Car.Name)
}

// undoButton takes one change back, however often it is pressed.
func undoButton(label string, car tuning.Car, change int64) bot.Action {
	return bot.Button(label, fmt.Sprintf("/undo change:%d", change), bot.OfCar(car))
}

// undoable finds the newest change that can be taken back: not an undo, not
// undone, and ending where the clicks stand.
func undoable(c tuning.Case) (tuning.Change, bool) {
	for _, change := range c.History.Changes {
		if !change.Undone && change.Reason != tuning.ByUndo && standsAfter(c.Setting, change.Moves) {
			return change, true
		}
	}
	return tuning.Change{}, false
}
