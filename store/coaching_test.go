package store_test

import (
	"context"
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
	r.once(robin, func(ctx context.Context, b *store.Book) (err error) {
		must(t, b.SaveNote(ctx, tuning.CoachNote{Coach: robin.Person, Student: sam.Person, Text: "Brake later."}))
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
		same(t, notes, []tuning.CoachNote{{Coach: robin.Person, CoachName: renamed.Name, Student: sam.Person, At: morning, Text: "Brake later."}})
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
	wantProblem(t, err, tuning.Conflict, "That advice was applied or declined already: ask again with /symptom.")
}
