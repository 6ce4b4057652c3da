package bot

import (
	"context"
	"testing"

	"detent/tuning"
)

// ofThisFeel is some cars of which the driver last said something.
type ofThisFeel struct {
	garageOf
	notes string
}

func (g ofThisFeel) Case(ctx context.Context, owner, name string) (tuning.Case, error) {
	k, err := g.garageOf.Case(ctx, owner, name)
	k.History.LastFeel = &tuning.Feel{Notes: g.notes}
	return k, err
}

func TestCarsThatMayNotBeTurned(t *testing.T) {
	retired := garageOf{cars: []tuning.Car{{ID: 1, Name: "Blue hatch", Main: true}, {ID: 2, Name: "Old van", Retired: true}}}
	for _, tt := range []struct {
		book ofThisFeel
		car  string
		runs tuning.Kind
		turn tuning.Kind
	}{
		{ofThisFeel{retired, "turns in now"}, "", "", ""},
		{ofThisFeel{retired, "it leaks oil"}, "", "", tuning.Conflict},
		{ofThisFeel{retired, ""}, "Old van", tuning.Conflict, tuning.Conflict},
		{ofThisFeel{retired, ""}, "Red van", tuning.NotFound, tuning.NotFound},
	} {
		_, runs := Call{}.FindRunning(t.Context(), tt.book, tt.car)
		_, turns := Call{}.FindTurnable(t.Context(), tt.book, tt.car)
		if tuning.KindOf(runs) != tt.runs || tuning.KindOf(turns) != tt.turn {
			t.Errorf("%q of %q: %v, %v", tt.car, tt.book.notes, runs, turns)
		}
	}
}
