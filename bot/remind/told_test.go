package remind_test

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"detent/bot/remind"
	"detent/store"
	"detent/tuning"
	"detent/tuning/calendar"
)

// tell has Ash, the organiser, tell people who are in an event something.
func (w remindedClub) tell(club tuning.Club, event tuning.Event, text string, to ...string) {
	w.Helper()
	w.ask(person(club.Key, "ash"), func(ctx context.Context, b *store.Book) error {
		m, err := b.SaveEventMessage(ctx, tuning.EventMessage{Event: event.ID, Sender: "person-ash", Text: text})
		must(w.T, err)
		due, err := calendar.ForEntrants(club, event, m.ID, w.clock.Now())
		must(w.T, err)
		return b.Deliver(ctx, due, to...)
	})
}

// Everybody is told once, by name of who tells it; the check of the car comes
// all the same.
func TestWhatEntrantsAreTold(t *testing.T) {
	w, club, event := springDay(t)
	w.enter(club, event, "lee", "Red hatch")
	w.tell(club, event, "Gate opens at 8.", "person-sam", "person-lee")
	w.beat()
	w.beat()
	mails := w.post.take()
	if len(mails) != 2 || mails[0].to == mails[1].to {
		t.Fatalf("there arrived %+v", mails)
	}
	for _, m := range mails {
		if m.reply.Title != "Spring day: message from Ash" || m.reply.Text != "“Gate opens at 8.”" || !slices.Equal(pressed(m.reply), []string{"/event show name:#1", "/me set messages:off"}) {
			t.Errorf("there arrived %+v", m)
		}
	}
	w.goTo(club, "2027-05-07 19:00")
	w.wantMail("person-lee: Spring day starts on Saturday 8 May at 09:00", checkSam)
}

// That an event is cancelled reaches those who are in it, once; what they were to
// be told before does not.
func TestEntrantsHearOfACancelledEvent(t *testing.T) {
	w, club, event := springDay(t)
	w.enter(club, event, "lee", "Red hatch")
	w.clock.set(w.local(club, "2027-05-04 22:30"))
	w.tell(club, event, "Gate opens at 8.", "person-sam", "person-lee")
	w.ask(person(club.Key, "ash"), func(ctx context.Context, b *store.Book) error {
		event.Cancelled = true
		_, err := b.SaveEvent(ctx, event)
		must(w.T, err)
		m, err := b.SaveEventMessage(ctx, tuning.EventMessage{Event: event.ID, Sender: "person-ash", Text: "The track is flooded.", Cancels: true})
		must(w.T, err)
		due, err := calendar.ForEntrants(club, event, m.ID, w.clock.Now())
		must(w.T, err)
		return b.Deliver(ctx, due, "person-sam", "person-lee")
	})
	w.beat()
	w.wantMail()
	w.clock.set(w.local(club, "2027-05-05 08:00"))
	w.beat()
	w.beat()
	mails := w.post.take()
	if len(mails) != 2 || mails[0].to == mails[1].to {
		t.Fatalf("there arrived %+v", mails)
	}
	for _, m := range mails {
		if m.reply.Title != "Spring day is cancelled" || m.reply.Text != "Ash called it off. It was planned for Sat 8 May 2027, 09:00.\n“The track is flooded.”" {
			t.Errorf("there arrived %q, %q", m.reply.Title, m.reply.Text)
		}
	}
}

// Whoever does not want it by the time it goes out gets none, nor does whoever
// takes no direct messages; nothing of it goes to the channel.
func TestNotTold(t *testing.T) {
	for note, do := range map[string]func(ctx context.Context, b *store.Book, car tuning.Car, event tuning.Event) error{
		"they switched messages off": func(ctx context.Context, b *store.Book, _ tuning.Car, _ tuning.Event) error {
			return b.SaveMember(ctx, tuning.Member{Person: "person-sam", Name: "Sam", Reminders: true, Muted: true})
		},
		"they are not entered any more": func(ctx context.Context, b *store.Book, car tuning.Car, event tuning.Event) error {
			return b.Leave(ctx, event, car)
		},
		"they want no reminder of this event": func(ctx context.Context, b *store.Book, car tuning.Car, event tuning.Event) error {
			return b.Remind(ctx, event, car, false)
		},
		"the event is cancelled": func(ctx context.Context, b *store.Book, _ tuning.Car, event tuning.Event) error {
			event.Cancelled = true
			_, err := b.SaveEvent(ctx, event)
			return err
		},
		"what was written is gone": func(ctx context.Context, b *store.Book, _ tuning.Car, _ tuning.Event) error {
			return b.Erase(ctx, "person-ash")
		},
	} {
		t.Run(note, func(t *testing.T) {
			t.Parallel()
			w, club, event := springDay(t)
			w.clock.set(w.local(club, "2027-05-04 22:30"))
			w.tell(club, event, "Gate opens at 8.", "person-sam")
			w.beat()
			w.wantMail()
			w.ask(person(harrow, "sam"), func(ctx context.Context, b *store.Book) error {
				car, err := b.Car(ctx, "person-sam", "")
				must(t, err)
				return do(ctx, b, car, event)
			})
			w.goTo(club, "2027-05-05 08:00")
			w.wantMail()
			if rows := w.rows(); !slices.Contains(rows, "event-message person-sam dropped "+note) {
				t.Errorf("the timetable says %q", rows)
			}
		})
	}
}

func TestToldWithDirectMessagesClosed(t *testing.T) {
	w, club, event := springDay(t)
	w.post.fails["person-sam"] = remind.ErrClosed
	w.tell(club, event, "Gate opens at 8.", "person-sam")
	w.beat()
	w.wantMail()
	if rows := w.rows(); !slices.Contains(rows, "event-message person-sam gave up they take no direct messages") {
		t.Errorf("the timetable says %q", rows)
	}
}

// The night before the event does not keep the message back.
func TestToldInTheLastNight(t *testing.T) {
	w, club, event := springDay(t)
	w.goTo(club, "2027-05-07 19:00")
	w.wantMail(checkSam)
	w.clock.set(w.local(club, "2027-05-07 23:30"))
	w.tell(club, event, "The gate has moved.", "person-sam")
	w.beat()
	w.wantMail("person-sam: Spring day: message from Ash")
}

// The longest message there can be is shown whole.
func TestTheLongestMessageOfAnEvent(t *testing.T) {
	w, club, event := springDay(t)
	for _, text := range []string{strings.TrimSpace(strings.Repeat("größer ", 57)), strings.Repeat("後", 400)} {
		w.tell(club, event, text, "person-sam")
		w.beat()
		mails := w.post.take()
		if len(mails) != 1 {
			t.Fatalf("there arrived %+v", mails)
		}
		m := mails[0].reply.Message()
		lines, runes := m.Measure()
		if most, mostRunes := mails[0].reply.View.Size.Room(); lines > most || runes > mostRunes || strings.Contains(m.Text, "…") {
			t.Errorf("%d lines, %d characters:\n%s", lines, runes, m.Words())
		}
	}
}

// What was written in the night is read in the morning in the order in which it
// was written.
func TestToldInOrder(t *testing.T) {
	w := newLesson(t)
	event := w.event(w.club, "Spring day", "2027-05-08 09:00", "2027-05-08 17:00")
	w.clock.set(w.local(w.club, "2027-05-03 22:00"))
	want := []string{"“first”", "“second”", "“third”", "“fourth”"}
	w.enter(w.club, event, "sam", "Red hatch")
	for i, text := range []string{"first", "second", "third", "fourth"} {
		if i%2 == 0 {
			w.note(text)
		} else {
			w.tell(w.club, event, text, "person-sam")
		}
		w.clock.advance(time.Minute)
	}
	w.goTo(w.club, "2027-05-04 08:00")
	var got []string
	for _, m := range w.post.take() {
		got = append(got, m.reply.Text)
	}
	if !slices.Equal(got, want) {
		t.Errorf("they are read as %q", got)
	}
}
