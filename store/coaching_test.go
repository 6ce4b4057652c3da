package store_test

import (
	"context"
	"errors"
	"testing"

	"detent/store"
	"detent/tuning"
)

// What a coach left is read under the name they have today, with the car that
// a suggestion is for.
func TestWhatACoachLeft(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	c := r.theCase(sam)
	remedies := []tuning.Remedy{{Kind: tuning.TurnClicks, Why: "it pushes", Moves: turn(c, tuning.Rebound, -2)}}
	var advice tuning.Advice
	var note tuning.CoachNote
	r.once(robin, func(ctx context.Context, b *store.Book) (err error) {
		note, err = b.SaveNote(ctx, tuning.CoachNote{Coach: robin.Person, Student: sam.Person, Text: "Brake later."})
		must(t, err)
		must(t, b.Looked(ctx, robin.Person, sam.Person, "the log"))
		advice, err = b.Suggest(ctx, robin.Person, tuning.Advice{Car: c.Car.ID, Remedies: remedies}, c.Setting)
		return err
	})
	renamed := robin
	renamed.Name = "Robin Redbreast"
	r.once(renamed, nothing)
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		notes, err := b.Notes(ctx, sam.Person, 10)
		must(t, err)
		same(t, notes, []tuning.CoachNote{{ID: note.ID, Coach: robin.Person, CoachName: renamed.Name, Student: sam.Person, At: morning, Text: "Brake later."}})
		looks, err := b.Looks(ctx, sam.Person, 10)
		must(t, err)
		same(t, looks, []tuning.Look{{Coach: robin.Person, CoachName: renamed.Name, At: morning, What: "the log"}})
		waiting, err := b.Suggestions(ctx, sam.Person)
		must(t, err)
		same(t, waiting, []tuning.Suggestion{{Advice: advice, Coach: robin.Person, CoachName: renamed.Name, Car: c.Car, At: morning}})
		return nil
	})
	r.once(sam, func(ctx context.Context, b *store.Book) error { return b.Decline(ctx, sam.Person, advice.ID) })
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		waiting, err := b.Suggestions(ctx, sam.Person)
		same(t, waiting, []tuning.Suggestion(nil))
		return err
	})
	err := r.try(sam, func(ctx context.Context, b *store.Book) error {
		_, err := b.Record(ctx, c.Car, tuning.Change{Reason: tuning.ByRemedy, Advice: advice.ID, Remedy: 1, Moves: turn(c, tuning.Rebound, 1)})
		return err
	})
	wantRefusal(t, err, tuning.AdviceSpent)
}

// What showed a student is not given again to a coach whose coaching has ended,
// nor done again; and a student sees who looked though the coach has left.
func TestWhatShowedAStudent(t *testing.T) {
	r := open(t)
	r.once(sam, nothing)
	var tie tuning.Coaching
	r.once(robin, func(ctx context.Context, b *store.Book) (err error) {
		tie, err = b.SaveCoaching(ctx, tuning.Coaching{Coach: robin.Person, Student: sam.Person})
		tie.Accepted = morning
		if err == nil {
			_, err = b.SaveCoaching(ctx, tie)
		}
		return err
	})
	runs := 0
	ask := func(id string, looks ...string) (string, error) {
		reply, err := r.db.Once(t.Context(), robin, morning, id, func(b *store.Book) ([]byte, error) {
			runs++
			for _, student := range looks {
				must(t, b.Looked(t.Context(), robin.Person, student, "the log"))
			}
			return []byte("Sam's clicks"), nil
		})
		return string(reply), err
	}
	for range 2 {
		for id, looks := range map[string][]string{"look": {sam.Person}, "own": nil} {
			if reply, err := ask(id, looks...); err != nil || reply != "Sam's clicks" {
				t.Errorf("while it holds %s is answered %q, %v", id, reply, err)
			}
		}
	}
	tie.Ended = morning
	r.once(sam, func(ctx context.Context, b *store.Book) error { _, err := b.SaveCoaching(ctx, tie); return err })
	if reply, err := ask("look", sam.Person); !errors.As(err, new(store.Withheld)) || reply != "" {
		t.Errorf("after it ended the look is answered %q, %v", reply, err)
	}
	if reply, err := ask("own"); err != nil || reply != "Sam's clicks" {
		t.Errorf("after it ended the coach's own is answered %q, %v", reply, err)
	}
	if runs != 2 {
		t.Errorf("it ran %d times", runs)
	}
	r.once(robin, func(ctx context.Context, b *store.Book) error { return b.Erase(ctx, robin.Person) })
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		looks, err := b.Looks(ctx, sam.Person, 10)
		same(t, looks, []tuning.Look{{At: morning, What: "the log"}})
		return err
	})
}
