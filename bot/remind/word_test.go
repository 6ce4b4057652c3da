package remind_test

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/bot/remind"
	"detent/store"
	"detent/tuning"
	"detent/tuning/calendar"
)

// lesson is a club with a coach, Kim, and a student, Sam, who has a car with
// dampers; it is a Monday noon.
type lesson struct {
	remindedClub
	club tuning.Club
	tie  tuning.Coaching
	car  tuning.Car
}

func newLesson(t *testing.T) *lesson {
	w := &lesson{remindedClub: newRemindedClub(t)}
	w.clock.set(time.Date(2027, 5, 3, 10, 0, 0, 0, time.UTC))
	w.club = w.remindedClub.club(harrow, "Europe/Berlin")
	w.ask(person(harrow, "sam"), func(ctx context.Context, b *store.Book) (err error) {
		d := tuning.Damper{Ways: 2, Count: tuning.FromHard}
		d.Range[tuning.Bump], d.Range[tuning.Rebound] = 30, 30
		w.car, err = b.SaveCar(ctx, tuning.Car{Owner: "person-sam", Name: "Blue hatch", Drive: tuning.FrontDrive, Engine: tuning.FrontEngine})
		must(t, err)
		w.car.Dampers = [tuning.Axles]tuning.Damper{d, d}
		for axle := range tuning.Axle(tuning.Axles) {
			var start []tuning.Move
			for _, corner := range axle.Corners() {
				for _, a := range d.Adjusters() {
					start = append(start, tuning.Move{Corner: corner, Adjuster: a, From: -1, To: 14})
				}
			}
			must(t, b.FitDampers(ctx, w.car, axle, start))
		}
		return nil
	})
	w.ask(person(harrow, "kim"), func(ctx context.Context, b *store.Book) (err error) {
		w.tie, err = b.SaveCoaching(ctx, tuning.Coaching{Coach: "person-kim", Student: "person-sam"})
		return err
	})
	w.tie.Accepted = w.clock.Now()
	w.bySam(func(ctx context.Context, b *store.Book) error { _, err := b.SaveCoaching(ctx, w.tie); return err })
	return w
}

func (w *lesson) bySam(fn func(ctx context.Context, b *store.Book) error) {
	w.Helper()
	w.ask(person(harrow, "sam"), fn)
}

// note has Kim write a note to Sam.
func (w *lesson) note(text string) {
	w.Helper()
	w.ask(person(harrow, "kim"), func(ctx context.Context, b *store.Book) error {
		note, err := b.SaveNote(ctx, tuning.CoachNote{Coach: "person-kim", Student: "person-sam", Text: text})
		must(w.T, err)
		due, err := calendar.ForStudent(w.club, calendar.CoachNote, note.ID, w.clock.Now())
		must(w.T, err)
		return b.Deliver(ctx, due, "person-sam")
	})
}

// suggest has Kim suggest that the rear rebound goes to a click.
func (w *lesson) suggest(to int, why string) (advice tuning.Advice) {
	w.Helper()
	w.ask(person(harrow, "kim"), func(ctx context.Context, b *store.Book) error {
		c, err := b.Case(ctx, "person-sam", "")
		must(w.T, err)
		var moves []tuning.Move
		for _, corner := range tuning.Rear.Corners() {
			moves = append(moves, tuning.Move{Corner: corner, Adjuster: tuning.Rebound, From: c.Setting[corner][tuning.Rebound], To: to})
		}
		remedies := []tuning.Remedy{{Kind: tuning.TurnClicks, Why: tuning.Why(why), Moves: moves}}
		advice, err = b.Suggest(ctx, "person-kim", tuning.Advice{Car: w.car.ID, Remedies: remedies}, c.Setting)
		must(w.T, err)
		due, err := calendar.ForStudent(w.club, calendar.Suggestion, advice.ID, w.clock.Now())
		must(w.T, err)
		return b.Deliver(ctx, due, "person-sam")
	})
	return advice
}

// A note arrives once, with who wrote it and what can be pressed; what is
// written in the night waits for the morning.
func TestANoteOfACoach(t *testing.T) {
	w := newLesson(t)
	w.note("Brake later,\n  then look up.")
	w.beat()
	w.beat()
	mails := w.post.take()
	if len(mails) != 1 || mails[0].to != "person-sam" || mails[0].reply.Title != "A note from Kim" || mails[0].reply.Text != "“Brake later, then look up.”" {
		t.Fatalf("there arrived %+v", mails)
	}
	if lines := pressed(mails[0].reply); !slices.Equal(lines, []string{"/coach notes", "/me set messages:off"}) {
		t.Errorf("it offers %q", lines)
	}
	w.clock.set(w.local(w.club, "2027-05-03 22:30"))
	w.note("Sleep well.")
	w.beat()
	w.wantMail()
	w.goTo(w.club, "2027-05-04 08:00")
	w.wantMail("person-sam: A note from Kim")
}

func pressed(r bot.Reply) (lines []string) {
	for _, a := range r.Message().Actions {
		lines = append(lines, a.Line())
	}
	return lines
}

// A suggestion says what to turn on which car, and carries the cautions.
func TestASuggestionOfACoach(t *testing.T) {
	w := newLesson(t)
	w.suggest(16, "It pushes on the way in.")
	w.beat()
	mails := w.post.take()
	if len(mails) != 1 || mails[0].reply.Title != "Kim suggests for Blue hatch: Rear rebound 2 stiffer, both sides: 16 → 14 from hard" || mails[0].reply.Text != "“It pushes on the way in.”" {
		t.Fatalf("there arrived %+v", mails)
	}
	if lines := pressed(mails[0].reply); !slices.Equal(lines, []string{"/coach notes", "/apply advice:1 remedy:1", "/coach decline advice:1", "/me set messages:off"}) {
		t.Errorf("it offers %q", lines)
	}
	if words := mails[0].reply.Message().Words(); !strings.Contains(words, "turn gently, never past the stop") || !strings.Contains(words, "16→14") {
		t.Errorf("it reads\n%s", words)
	}
}

// The first message of a coaching from before there were messages says how to
// stop them, and no other does.
func TestTheFirstMessageOfAnOlderCoaching(t *testing.T) {
	const stop = "/me set messages:off stops them."
	w := newLesson(t)
	w.admin.MustExec(`update coachings set told_at = null`)
	for _, first := range []bool{true, false} {
		w.note("Brake later.")
		w.beat()
		mails := w.post.take()
		if len(mails) != 1 || strings.Contains(mails[0].reply.Message().Words(), stop) != first {
			t.Errorf("the first %v: %+v", first, mails)
		}
	}
	w.suggest(16, "It pushes.")
	w.beat()
	if mails := w.post.take(); len(mails) != 1 || strings.Contains(mails[0].reply.Message().Words(), stop) {
		t.Errorf("it is told again: %+v", mails)
	}
}

// Whoever needs the message no more by the time it is due gets none.
func TestWordsThatAreMoot(t *testing.T) {
	for note, do := range map[string]func(w *lesson, ctx context.Context, b *store.Book) error{
		"they switched messages off": func(_ *lesson, ctx context.Context, b *store.Book) error {
			return b.SaveMember(ctx, tuning.Member{Person: "person-sam", Name: "Sam", Reminders: true, Muted: true})
		},
		"they switched reminders off": func(_ *lesson, ctx context.Context, b *store.Book) error {
			return b.SaveMember(ctx, tuning.Member{Person: "person-sam", Name: "Sam"})
		},
		"they have read it": func(_ *lesson, ctx context.Context, b *store.Book) error { return b.NoteSeen(ctx, "person-sam") },
		"the coaching has ended": func(w *lesson, ctx context.Context, b *store.Book) error {
			w.tie.Ended = w.clock.Now()
			_, err := b.SaveCoaching(ctx, w.tie)
			return err
		},
		"they have answered it": func(_ *lesson, ctx context.Context, b *store.Book) error { return b.Decline(ctx, "person-sam", 1) },
		"the clicks have moved since": func(w *lesson, ctx context.Context, b *store.Book) error {
			_, err := b.Record(ctx, w.car, tuning.Change{At: w.clock.Now(), Reason: tuning.ByHand,
				Moves: []tuning.Move{{Corner: tuning.FL, Adjuster: tuning.Bump, From: 14, To: 15}}})
			return err
		},
	} {
		t.Run(note, func(t *testing.T) {
			t.Parallel()
			w := newLesson(t)
			w.clock.set(w.local(w.club, "2027-05-03 22:30"))
			w.suggest(16, "It pushes.")
			w.bySam(func(ctx context.Context, b *store.Book) error { return do(w, ctx, b) })
			w.goTo(w.club, "2027-05-04 08:00")
			w.wantMail()
			w.wantRows("suggestion person-sam dropped " + note)
		})
	}
}

// Where direct messages are closed nothing of a coach's goes to the channel.
func TestACoachsWordIsForOneAlone(t *testing.T) {
	w := newLesson(t)
	w.post.fails["person-sam"] = remind.ErrClosed
	w.note("Brake later.")
	w.beat()
	w.wantMail()
	w.wantRows("coach-note person-sam gave up they take no direct messages")
}

// However long the words, the message keeps to a phone and shows that it was
// cut.
func TestLongWords(t *testing.T) {
	w := newLesson(t)
	long := strings.TrimSpace(strings.Repeat("größer ", 140))
	w.note(long)
	w.suggest(16, long)
	w.note(strings.Repeat("後", 1000))
	w.beat()
	mails := w.post.take()
	if len(mails) != 3 {
		t.Fatalf("there arrived %d", len(mails))
	}
	for _, m := range mails {
		lines, runes := m.reply.Message().Measure()
		if most, mostRunes := m.reply.View.Size.Room(); lines > most || runes > mostRunes {
			t.Errorf("%d lines, %d characters:\n%s", lines, runes, m.reply.Message().Words())
		}
		if !strings.Contains(m.reply.Message().Text, "…") {
			t.Errorf("it does not show that it was cut:\n%s", m.reply.Message().Text)
		}
	}
}
