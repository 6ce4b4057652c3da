package remind_test

import (
	"context"
	"strings"
	"time"

	"detent/store"
	"detent/tuning"
	"detent/tuning/calendar"
)

// kinds are what people get under the kills, and how it begins.
var kinds = []struct {
	kind  calendar.Kind
	title string
}{
	{calendar.AskFeel, "How did the car feel at Spring day?"},
	{calendar.CoachNote, "A note from Ash"},
	{calendar.Suggestion, "Ash suggests for Blue hatch: "},
	{calendar.EventMessage, "Spring day: message from Ash"},
}

// plan puts the message of the n-th person, whose car it is, on the timetable.
// Whoever is coached was never told how to stop it.
func (w *site) plan(ctx context.Context, b *store.Book, n int, car tuning.Car, at time.Time) error {
	const ash = "organiser"
	d := calendar.Due{Kind: kinds[n%len(kinds)].kind, At: at, Until: at.Add(24 * time.Hour)}
	switch d.Kind {
	case calendar.AskFeel:
		return b.Schedule(ctx, w.event.ID, car.Owner, []calendar.Due{d})
	case calendar.EventMessage:
		m, err := b.SaveEventMessage(ctx, tuning.EventMessage{Event: w.event.ID, Sender: ash, Text: "Bring water."})
		must(w.T, err)
		d.Event, d.About = w.event.ID, m.ID
		return b.Deliver(ctx, d, car.Owner)
	}
	tie, err := b.SaveCoaching(ctx, tuning.Coaching{Coach: ash, Student: car.Owner})
	must(w.T, err)
	tie.Accepted = w.clock.Now()
	_, err = b.SaveCoaching(ctx, tie)
	must(w.T, err)
	if d.Kind == calendar.CoachNote {
		note, err := b.SaveNote(ctx, tuning.CoachNote{Coach: ash, Student: car.Owner, Text: "Brake later."})
		must(w.T, err)
		d.About = note.ID
		return b.Deliver(ctx, d, car.Owner)
	}
	moves := []tuning.Move{{Corner: tuning.RL, Adjuster: tuning.Rebound, From: 14, To: 16}, {Corner: tuning.RR, Adjuster: tuning.Rebound, From: 14, To: 16}}
	advice, err := b.Suggest(ctx, ash, tuning.Advice{Car: car.ID, Remedies: []tuning.Remedy{{Kind: tuning.TurnClicks, Why: "It pushes.", Moves: moves}}}, tuning.Setting{})
	must(w.T, err)
	d.About = advice.ID
	return b.Deliver(ctx, d, car.Owner)
}

// verifyKinds wants everybody's message to be of their kind, and the coached to
// have been told how to stop theirs.
func (w *site) verifyKinds() {
	w.Helper()
	for n, who := range w.people {
		want := "**" + kinds[n%len(kinds)].title
		for _, m := range who.Inbox().Messages() {
			if !strings.HasPrefix(strings.ReplaceAll(m.Content, `\`, ""), want) || len(m.Pings) != 0 {
				w.Errorf("%s got %q, which calls %v", who.Name, m.Content, m.Pings)
			}
		}
	}
	var told, untold int
	must(w.T, w.admin.Get(&told, `select count(*) from coachings where told_at is not null`))
	must(w.T, w.admin.Get(&untold, `select count(*) from coachings where told_at is null`))
	if told == 0 || untold != 0 {
		w.Errorf("%d of the coached were told how to stop it, %d were not", told, untold)
	}
}
