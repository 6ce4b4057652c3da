package store_test

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"

	"pgregory.net/rapid"

	"detent/store"
	"detent/tuning"
)

func TestHistory(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	c := r.theCase(sam)
	if !c.History.Unrecorded || len(c.History.Changes) != 0 || c.History.LastFeel != nil || !c.History.LastAdvice.At.IsZero() {
		t.Errorf("of a car just fitted the record remembers %+v", c.History)
	}

	complaint := tuning.Complaint{What: tuning.Understeer, Where: tuning.Exit, Weather: tuning.Wet}
	var remedy, back tuning.Change
	var first, last tuning.Feel
	mark, hop := -2, false
	r.once(sam, func(ctx context.Context, b *store.Book) (err error) {
		advice, err := b.SaveAdvice(ctx, tuning.Advice{Car: c.Car.ID, Complaint: complaint}, c.Setting)
		if err != nil {
			return err
		}
		remedy, err = b.Record(ctx, c.Car, tuning.Change{Reason: tuning.ByRemedy, Complaint: &complaint, Advice: advice.ID, Remedy: 1,
			Moves: turn(c, tuning.Rebound, -2)})
		if err != nil {
			return err
		}
		for _, better := range []tuning.Better{tuning.BetterNo, tuning.BetterYes, ""} {
			last, err = b.SaveFeel(ctx, tuning.Feel{Car: c.Car.ID, Grip: 6, Entry: &mark, Hop: &hop, Better: better,
				Lap: 83*time.Second + 400*time.Millisecond, Notes: "pushes wide"})
			if err != nil {
				return err
			}
			if first.ID == 0 {
				first = last
			}
		}
		back, err = b.Record(ctx, c.Car, tuning.Change{Reason: tuning.ByUndo, Undoes: remedy.ID, Moves: tuning.Backward(remedy.Moves)})
		return err
	})
	if first.Change != remedy.ID || first.At != morning || first.Person != sam.Person {
		t.Errorf("the feel after change %d is %+v", remedy.ID, first)
	}
	remedy.Felt, remedy.Undone = tuning.BetterYes, true // the latest answer counts
	back.Moves = []tuning.Move{back.Moves[1], back.Moves[0]}
	want := tuning.History{Changes: []tuning.Change{back, remedy}, LastFeel: &last, LastAnswer: tuning.Occasion{At: morning}, LastAdvice: tuning.Occasion{At: morning}}
	got := r.theCase(sam)
	same(t, got.History, want)
	same(t, got.Setting, c.Setting)

	// Other dampers begin another history.
	r.once(sam, func(ctx context.Context, b *store.Book) error { return fit(ctx, b, &c.Car, damper()) })
	if got := r.theCase(sam).History; !got.Unrecorded || len(got.Changes) != 0 || got.LastFeel.ID != last.ID {
		t.Errorf("after other dampers the record remembers %+v", got)
	}
}

func TestUnrecordedUntilSaid(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	c := r.theCase(sam)
	r.once(sam, func(ctx context.Context, b *store.Book) error {
		_, err := b.Record(ctx, c.Car, byHand(turn(c, tuning.Rebound, 0))) // it does stand there
		return err
	})
	if r.theCase(sam).History.Unrecorded {
		t.Error("the member said where the clicks stand and is not believed")
	}
}

func TestHistoryIsBounded(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	r.once(sam, func(ctx context.Context, b *store.Book) error {
		for n := range 60 {
			c, err := b.Case(ctx, sam.Person, "")
			if err != nil {
				return err
			}
			if _, err := b.Record(ctx, c.Car, byHand(turn(c, tuning.Rebound, 1-2*(n%2)))); err != nil {
				return err
			}
		}
		return nil
	})
	changes := r.theCase(sam).History.Changes
	if len(changes) != 50 || changes[0].ID < changes[49].ID {
		t.Errorf("%d changes are remembered, want the newest 50, newest first", len(changes))
	}
}

func TestLogPages(t *testing.T) {
	r := open(t)
	car := r.car(sam, "Blue hatch") // two fittings
	r.once(robin, func(ctx context.Context, b *store.Book) error {
		for range 19 {
			c, err := b.Case(ctx, sam.Person, "")
			if err != nil {
				return err
			}
			if _, err := b.Record(ctx, c.Car, byHand(turn(c, tuning.HighBump, 0))); err != nil {
				return err
			}
		}
		return nil
	})
	var ids []int64
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		for page, want := range []int{10, 10, 1, 0} {
			entries, more, err := b.Log(ctx, car, page+1)
			if err != nil {
				return err
			}
			if len(entries) != want || more != (page < 2) {
				t.Errorf("page %d has %d entries, more %v", page+1, len(entries), more)
			}
			for _, e := range entries {
				name := "Robin"
				if e.Change.Reason == tuning.ByFitting {
					name = "Sam"
				}
				if e.ByName != name || len(e.Change.Moves) == 0 || !e.Change.At.Equal(morning) {
					t.Errorf("the entry is %+v, want it by %s", e, name)
				}
				ids = append(ids, e.Change.ID)
			}
		}
		return nil
	})
	for i := range ids[1:] {
		if ids[i] <= ids[i+1] {
			t.Fatalf("the log is not newest first: %v", ids)
		}
	}
}

func TestChangeIsTakenBackOnce(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	c := r.theCase(sam)
	err := r.try(sam, func(ctx context.Context, b *store.Book) error {
		change, err := b.Record(ctx, c.Car, byHand(turn(c, tuning.Rebound, 2)))
		for range 2 {
			if err == nil {
				_, err = b.Record(ctx, c.Car, tuning.Change{Reason: tuning.ByUndo, Undoes: change.ID, Moves: turn(c, tuning.HighBump, 0)})
			}
		}
		return err
	})
	wantRefusal(t, err, tuning.TakenBack)
	same(t, r.theCase(sam), c)
}

func TestRefusedMoves(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	c := r.theCase(sam)
	try := func(moves []tuning.Move) error {
		return r.try(sam, func(ctx context.Context, b *store.Book) error {
			_, err := b.Record(ctx, c.Car, byHand(moves))
			return err
		})
	}
	wantRefusal(t, try(nil), tuning.TurnsNothing)
	wantRefusal(t, try(turn(c, tuning.Rebound, 30)), tuning.BeyondStop)
	wantRefusal(t, try(turn(c, tuning.Rebound, -30)), tuning.BeyondStop)
	o, ok := errors.AsType[tuning.Overtaken](try([]tuning.Move{{Corner: tuning.FL, Adjuster: tuning.Bump, From: 0, To: 1}}))
	if !ok || o.Logged.Change.Reason != tuning.ByFitting || !o.Own {
		t.Errorf("of an adjuster that is not there: %+v", o)
	}
	same(t, r.theCase(sam), c)
}

func TestNothingToTurn(t *testing.T) {
	r := open(t)
	err := r.try(sam, func(ctx context.Context, b *store.Book) error {
		car, err := b.SaveCar(ctx, hatch(sam, "Blue hatch"))
		if err != nil {
			return err
		}
		_, err = b.Record(ctx, car, byHand([]tuning.Move{{Corner: tuning.FL, Adjuster: tuning.Rebound, From: 0, To: 1}}))
		return err
	})
	wantRefusal(t, err, tuning.NoDampers{Car: "Blue hatch"})
}

// Whatever is recorded and taken back, the clicks stand where the log says.
func TestClicksFollowTheLog(t *testing.T) {
	r := open(t)
	cars := 0
	rapid.Check(t, func(t *rapid.T) {
		cars++
		name := fmt.Sprintf("Car %d", cars)
		car := r.car(sam, name)
		var model tuning.Setting
		r.read(sam, func(ctx context.Context, b *store.Book) error {
			c, err := b.Case(ctx, sam.Person, name)
			model = c.Setting
			return err
		})
		for range rapid.IntRange(1, 5).Draw(t, "steps") {
			r.once(sam, func(ctx context.Context, b *store.Book) error {
				c, err := b.Case(ctx, sam.Person, name)
				if err != nil {
					return err
				}
				change, ok := draw(t, c)
				if !ok {
					return nil
				}
				if model, err = model.Apply(change.Moves); err != nil {
					return err
				}
				_, err = b.Record(ctx, car, change)
				return err
			})
		}
		r.read(sam, func(ctx context.Context, b *store.Book) error {
			c, err := b.Case(ctx, sam.Person, name)
			if c.Setting != model {
				t.Errorf("the clicks stand at %v, want %v", c.Setting, model)
			}
			return err
		})
		var folded []struct{ Corner, Adjuster, Clicks, Last string }
		must(r.T, r.admin.Select(&folded, `
			select corner, adjuster, p.clicks, l.to_click as last from positions p
			join lateral (select to_click from clicks c
				where c.car = p.car and c.corner = p.corner and c.adjuster = p.adjuster order by change desc limit 1) l on true
			where car = $1`, car.ID))
		if len(folded) != tuning.Corners*3 {
			t.Errorf("%d adjusters stand somewhere, want %d", len(folded), tuning.Corners*3)
		}
		for _, f := range folded {
			if f.Clicks != f.Last {
				t.Errorf("the %s %s stands at %s, the log ends at %s", f.Corner, f.Adjuster, f.Clicks, f.Last)
			}
		}
	})
}

// draw makes a change by hand, or one that takes the newest back.
func draw(t *rapid.T, c tuning.Case) (change tuning.Change, ok bool) {
	if len(c.History.Changes) > 0 && rapid.Bool().Draw(t, "undo") {
		newest := c.History.Changes[0]
		return tuning.Change{Reason: tuning.ByUndo, Undoes: newest.ID, Moves: tuning.Backward(newest.Moves)}, true
	}
	want := c.Setting
	for range rapid.IntRange(1, 4).Draw(t, "lines") {
		corner := tuning.Corner(rapid.IntRange(0, tuning.Corners-1).Draw(t, "corner"))
		adjuster := rapid.SampledFrom(c.Car.Dampers[corner.Axle()].Adjusters()).Draw(t, "adjuster")
		want[corner][adjuster] = rapid.IntRange(0, c.Car.Dampers[corner.Axle()].Range[adjuster]).Draw(t, "to")
	}
	moves := c.Setting.Toward(want, c.Car)
	return byHand(moves), len(moves) > 0
}
