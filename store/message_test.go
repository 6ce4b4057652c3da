package store_test

import (
	"context"
	"errors"
	"sync"
	"testing"
	"time"

	"detent/store"
	"detent/tuning"
	"detent/tuning/calendar"
)

// coach makes Robin Sam's coach.
func (r record) coach() (tie tuning.Coaching) {
	r.Helper()
	r.once(sam, nothing)
	r.once(robin, func(ctx context.Context, b *store.Book) (err error) {
		tie, err = b.SaveCoaching(ctx, tuning.Coaching{Coach: robin.Person, Student: sam.Person})
		return err
	})
	tie.Accepted = morning
	r.once(sam, func(ctx context.Context, b *store.Book) error { _, err := b.SaveCoaching(ctx, tie); return err })
	return tie
}

// notes has Robin write Sam a note, to be delivered in the morning.
func (r record) notes(text string) (d calendar.Due) {
	r.Helper()
	r.once(robin, func(ctx context.Context, b *store.Book) error {
		note, err := b.SaveNote(ctx, tuning.CoachNote{Coach: robin.Person, Student: sam.Person, Text: text})
		must(r.T, err)
		d = dueAt(calendar.CoachNote, morning)
		d.About = note.ID
		return b.Deliver(ctx, d, sam.Person)
	})
	return d
}

// suggests has Robin suggest a change of Sam's car.
func (r record) suggests(at time.Time) (advice tuning.Advice) {
	r.Helper()
	c := r.theCase(sam)
	remedies := []tuning.Remedy{{Kind: tuning.TurnClicks, Why: "it pushes", Moves: turn(c, tuning.Rebound, -2)}}
	must(r.T, r.at(at, robin, func(ctx context.Context, b *store.Book) (err error) {
		if advice, err = b.Suggest(ctx, robin.Person, tuning.Advice{Car: c.Car.ID, Remedies: remedies}, c.Setting); err != nil {
			return err
		}
		d := dueAt(calendar.Suggestion, at)
		d.About = advice.ID
		return b.Deliver(ctx, d, sam.Person)
	}))
	return advice
}

func (r record) occasion(d calendar.Due) calendar.Occasion {
	r.Helper()
	o, err := r.db.Occasion(r.Context(), morning, d)
	must(r.T, err)
	return o
}

// A message is delivered once, however often it is handed in, and what the
// program plans for the person leaves it alone.
func TestDeliver(t *testing.T) {
	r := open(t)
	r.coach()
	note := r.notes("Brake later.")
	r.once(robin, func(ctx context.Context, b *store.Book) error { return b.Deliver(ctx, note, sam.Person) })
	r.once(sam, func(ctx context.Context, b *store.Book) error { return b.Schedule(ctx, 0, sam.Person, nil) })
	r.notes("Brake earlier.")
	claimed := r.claim(morning)
	if len(claimed) != 2 || claimed[0].About != note.About || claimed[0].Kind != calendar.CoachNote || claimed[0].Person != sam.Person {
		t.Fatalf("claimed %+v", claimed)
	}
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		n, err := b.CoachMessages(ctx, sam.Person, morning, morning.Add(time.Hour))
		none, err2 := b.CoachMessages(ctx, sam.Person, morning.Add(time.Hour), morning.Add(2*time.Hour))
		if n != 2 || none != 0 {
			t.Errorf("%d and %d messages are counted", n, none)
		}
		return errors.Join(err, err2)
	})
}

// What a coach put to a student is read with whether it may still be sent, and
// the message that is sent has told the student how to stop more.
func TestOccasionOfACoachsWord(t *testing.T) {
	r := open(t)
	tie := r.coach()
	r.car(sam, "Blue hatch")
	advice := r.suggests(morning)
	note := r.notes("Brake later.")
	want := tuning.CoachWord{Coach: robin.Person, CoachName: robin.Name, At: morning, Note: "Brake later.", Holds: true, Told: true}
	r.admin.MustExec(`update coachings set told_at = null`) // accepted before anybody was told
	for _, d := range r.claim(morning) {
		want.Told = d.Kind == calendar.CoachNote // the suggestion comes first
		if d.Kind == calendar.Suggestion {
			word := r.occasion(d).Word
			if word.Suggested == nil || word.Suggested.Advice.ID != advice.ID || word.Suggested.Coach != robin.Person || word.Told || !word.Holds {
				t.Errorf("the suggestion is %+v", word)
			}
		} else {
			same(t, r.occasion(d).Word, want)
		}
		must(t, r.settle(morning, d, calendar.Sent))
	}
	r.once(sam, func(ctx context.Context, b *store.Book) error { return b.NoteSeen(ctx, sam.Person) })
	tie.Ended = morning
	r.once(sam, func(ctx context.Context, b *store.Book) error { _, err := b.SaveCoaching(ctx, tie); return err })
	note.Club, note.Person = sam.Club, sam.Person
	if word := r.occasion(note).Word; !word.Seen || word.Holds {
		t.Errorf("read, and ended: %+v", word)
	}
	r.once(robin, func(ctx context.Context, b *store.Book) error { return b.Erase(ctx, robin.Person) })
	same(t, r.occasion(note).Word, tuning.CoachWord{})
	same(t, r.occasion(calendar.Due{Club: sam.Club, Kind: calendar.Suggestion, Person: sam.Person, About: advice.ID}).Word, tuning.CoachWord{})
}

// The newest that was not read is known until it is read or answered.
func TestUnseen(t *testing.T) {
	r := open(t)
	tie := r.coach()
	r.car(sam, "Blue hatch")
	unseen := func(want tuning.Unseen) {
		t.Helper()
		r.read(sam, func(ctx context.Context, b *store.Book) error {
			got, err := b.Unseen(ctx, sam.Person)
			same(t, got, want)
			return err
		})
	}
	seen := func() {
		r.once(sam, func(ctx context.Context, b *store.Book) error { return b.NoteSeen(ctx, sam.Person) })
	}
	unseen(tuning.Unseen{})
	r.notes("Brake later.")
	ofNote := tuning.Unseen{CoachName: robin.Name, At: morning}
	unseen(ofNote)
	later := morning.Add(time.Minute)
	advice := r.suggests(later)
	unseen(tuning.Unseen{CoachName: robin.Name, At: later, Car: "Blue hatch"})
	r.once(sam, func(ctx context.Context, b *store.Book) error { return b.Decline(ctx, sam.Person, advice.ID) })
	unseen(ofNote)
	seen()
	unseen(tuning.Unseen{})
	r.suggests(later)
	unseen(tuning.Unseen{CoachName: robin.Name, At: later, Car: "Blue hatch"})
	seen()
	unseen(tuning.Unseen{})
	r.notes("Again.")
	tie.Ended = morning
	r.once(sam, func(ctx context.Context, b *store.Book) error { _, err := b.SaveCoaching(ctx, tie); return err })
	unseen(tuning.Unseen{})
}

// Of organisers who tell an event's entrants something at one moment, each
// knows what was told before.
func TestToldAtOnce(t *testing.T) {
	r := open(t)
	e := r.event(springDay(0))
	enough := errors.New("enough")
	var all sync.WaitGroup
	errs := make([]error, 6)
	for i := range errs {
		all.Go(func() {
			errs[i] = r.try(robin, func(ctx context.Context, b *store.Book) error {
				told, err := b.EventMessages(ctx, e, morning)
				if err != nil {
					return err
				}
				if len(told) == 2 {
					return enough
				}
				_, err = b.SaveEventMessage(ctx, tuning.EventMessage{Event: e.ID, Sender: robin.Person, Text: "Bring water."})
				return err
			})
		})
	}
	all.Wait()
	refused := 0
	for _, err := range errs {
		if errors.Is(err, enough) {
			refused++
		} else {
			must(t, err)
		}
	}
	if refused != len(errs)-2 {
		t.Errorf("%d of %d are refused", refused, len(errs))
	}
	r.read(robin, func(ctx context.Context, b *store.Book) error {
		told, err := b.EventMessages(ctx, e, morning)
		if len(told) != 2 || told[0].SenderName != robin.Name || told[0].Text != "Bring water." {
			t.Errorf("told %+v", told)
		}
		return err
	})
	d := calendar.Due{Club: robin.Club, Kind: calendar.EventMessage, Person: robin.Person, Event: e.ID, About: 1}
	if m := r.occasion(d).Message; m.ID != 1 || m.Event != e.ID || m.Sender != robin.Person {
		t.Errorf("the message is %+v", m)
	}
}

// Whoever wants no messages is known as that, and everybody else wants them.
func TestMuted(t *testing.T) {
	r := open(t)
	r.once(sam, func(ctx context.Context, b *store.Book) error {
		m, err := b.Member(ctx, sam.Person)
		must(t, err)
		if m.Muted {
			t.Error("muted from the start")
		}
		m.Muted, m.Answers = true, tuning.SharedAnswers
		return b.SaveMember(ctx, m)
	})
	r.once(tuning.Who{Club: sam.Club, Person: sam.Person, Name: "Samantha"}, func(ctx context.Context, b *store.Book) error {
		m, err := b.Member(ctx, sam.Person)
		if !m.Muted || m.Answers != tuning.SharedAnswers {
			t.Errorf("under a new name the settings are %+v", m)
		}
		return err
	})
	car, e := r.car(sam, "Blue hatch"), r.event(springDay(0))
	r.once(sam, func(ctx context.Context, b *store.Book) error {
		must(t, b.Enter(ctx, e, tuning.Entrant{Car: car, Reminded: true}))
		for _, wants := range []tuning.Member{{Reminders: true}, {}, {Reminders: true, Muted: true}, {Reminders: true, NoDirect: true}} {
			wants.Person, wants.Name = sam.Person, sam.Name
			must(t, b.SaveMember(ctx, wants))
			entrants, err := b.Entrants(ctx, e)
			must(t, err)
			if len(entrants) != 1 || entrants[0].Muted != (wants.Muted || !wants.Reminders) || entrants[0].NoDirect != wants.NoDirect {
				t.Errorf("who wants %+v is in as %+v", wants, entrants)
			}
		}
		return nil
	})
}
