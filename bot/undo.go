package bot

import (
	"context"
	"fmt"

	"detent/bot/say"
	"detent/tuning"
)

func undoCommands() []Command {
	return []Command{{Name: "undo", Help: "Take the last change back", Private: true, Writes: true, Answer: undo, Options: []Option{
		carOption, {Name: "change", Help: "the change that is meant, the last when not said", Kind: Whole, Min: 1, Max: 1 << 52}}}}
}

func undo(ctx context.Context, call Call) (Reply, error) {
	c, err := call.running(ctx)
	if err != nil {
		return Reply{}, err
	}
	last, ok := undoable(c)
	if number := int64(call.Args.Whole("change")); number != 0 && (!ok || last.ID != number) {
		return notLast(c, number)
	}
	if !ok {
		return Reply{}, tuning.Problemf(tuning.Conflict, "There is no change of %s that can be taken back: /log shows what was changed.", c.Car.Name)
	}
	change, err := call.Book.Record(ctx, c.Car, tuning.Change{At: call.now(), By: call.owner(), Reason: tuning.ByUndo,
		Undoes: last.ID, Moves: tuning.Backward(last.Moves)})
	if err != nil {
		return Reply{}, err
	}
	return changed(c.Car, c.Setting, change, "Taken back"), nil
}

// notLast answers a press on an old button: the change is taken back already,
// or others have come after it.
func notLast(c tuning.Case, number int64) (Reply, error) {
	for _, change := range c.History.Changes {
		if change.ID == number && change.Undone {
			return Reply{Title: "Already taken back: " + say.Moves(c.Car, tuning.Turned(change.Moves)),
				Text: "It counts once, however often you press.", Corners: standing(c.Car, c.Setting)}, nil
		}
	}
	return Reply{}, tuning.Problemf(tuning.Conflict, "Other changes of %s have come after that one: /log shows them, /undo takes the last back.", c.Car.Name)
}

// undoLine takes one change back, however often it is pressed.
func undoLine(car tuning.Car, change int64) string {
	return aim(fmt.Sprintf("/undo change:%d", change), car)
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
