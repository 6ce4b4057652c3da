package bot

import (
	"context"

	"detent/tuning"
)

func undoCommands() []Command {
	return []Command{{Name: "undo", Help: "Take the last change back", Private: true, Writes: true, Options: []Option{carOption}, Answer: undo}}
}

func undo(ctx context.Context, call Call) (Reply, error) {
	c, err := call.running(ctx)
	if err != nil {
		return Reply{}, err
	}
	last, ok := undoable(c.History.Changes)
	if !ok {
		return Reply{}, tuning.Problemf(tuning.Conflict, "There is no change of %s to take back: its record begins where it stands.", c.Car.Name)
	}
	change, err := call.Book.Record(ctx, c.Car, tuning.Change{At: call.now(), By: call.owner(), Reason: tuning.ByUndo,
		Undoes: last.ID, Moves: tuning.Backward(last.Moves)})
	if err != nil {
		return Reply{}, err
	}
	return changed(c, change, "Taken back"), nil
}

// undoable finds the newest change that stands: not an undo, not undone, and
// not the fitting that the record begins with.
func undoable(changes []tuning.Change) (tuning.Change, bool) {
	for _, c := range changes {
		if c.Reason == tuning.ByFitting {
			return tuning.Change{}, false
		}
		if !c.Undone && c.Reason != tuning.ByUndo {
			return c, true
		}
	}
	return tuning.Change{}, false
}
