package remind_test

import (
	"context"
	"errors"
	"fmt"
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

const harrow = "harrow"

// springDay is a club with one event on a Saturday and Sam entered in it; the
// time is the Monday before.
func springDay(t *testing.T) (remindedClub, tuning.Club, tuning.Event) {
	w := newRemindedClub(t)
	w.clock.set(time.Date(2027, 5, 3, 12, 0, 0, 0, time.UTC))
	club := w.club(harrow, "Europe/Berlin")
	event := w.event(club, "Spring day", "2027-05-08 09:00", "2027-05-08 17:00")
	w.enter(club, event, "sam", "Blue hatch")
	return w, club, event
}

// goTo sets the clock by the club's clocks and beats.
func (w remindedClub) goTo(club tuning.Club, text string) {
	w.Helper()
	w.clock.set(w.local(club, text))
	w.beat()
}

const (
	checkSam = "person-sam: Spring day starts on Saturday 8 May at 09:00"
	askSam   = "person-sam: How did the car feel at Spring day?"
)

func TestAnEventFromEndToEnd(t *testing.T) {
	w, club, _ := springDay(t)
	for _, c := range []struct {
		at   string
		mail []string
	}{
		{"2027-05-07 18:59", nil},
		{"2027-05-07 19:00", []string{checkSam}},
		{"2027-05-08 19:59", nil},
		{"2027-05-08 20:00", []string{askSam}},
		{"2027-05-08 20:01", nil},
		{"2027-05-09 19:59", nil},
		{"2027-05-09 20:00", []string{askSam}},
		{"2027-06-09 20:00", nil},
	} {
		w.goTo(club, c.at)
		w.wantMail(c.mail...)
	}
	w.wantRows("check-before person-sam sent", "ask-feel person-sam sent", "ask-again person-sam sent")
}

func TestWhatALetterSays(t *testing.T) {
	w, club, event := springDay(t)
	w.enter(club, event, "sam", "Grey coupe")
	w.goTo(club, "2027-05-08 20:00")
	ask := w.post.take()[0].reply // the check was dropped: the event has begun
	want := []bot.Action{
		{Label: "Say how Blue hatch felt", Ask: fmt.Sprintf(`/feel event:#%d car:"Blue hatch"`, event.ID), Press: fmt.Sprintf("/feel event:#%d car:#1", event.ID)},
		{Label: "Say how Grey coupe felt", Ask: fmt.Sprintf(`/feel event:#%d car:"Grey coupe"`, event.ID), Press: fmt.Sprintf("/feel event:#%d car:#2", event.ID)},
		{Label: "No more reminders", Ask: "/me set reminders:off"},
	}
	if !slices.Equal(ask.Actions, want) || !slices.Contains(ask.Notes, "I ask once more tomorrow, and then no more.") {
		t.Errorf("asked with %+v", ask)
	}
	w.goTo(club, "2027-05-09 20:00")
	if again := w.post.take()[0].reply; !slices.Contains(again.Notes, "I ask no more after this.") {
		t.Errorf("asked again with %+v", again)
	}
}

// Whoever needs no reminder by the time it is due gets none.
func TestMootAtTheLastMoment(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(ctx context.Context, b *store.Book, car tuning.Car, event tuning.Event) error
		note string
	}{
		{"answered", func(ctx context.Context, b *store.Book, car tuning.Car, _ tuning.Event) error {
			_, err := b.SaveFeel(ctx, tuning.Feel{Car: car.ID, Grip: 7})
			return err
		}, "they have answered"},
		{"off", func(ctx context.Context, b *store.Book, _ tuning.Car, _ tuning.Event) error {
			return b.SaveMember(ctx, tuning.Member{Person: "person-sam", Name: "Sam"})
		}, "they switched reminders off"},
		{"left", func(ctx context.Context, b *store.Book, car tuning.Car, event tuning.Event) error {
			return b.Leave(ctx, event, car)
		}, "they are not entered any more"},
		{"refused", func(ctx context.Context, b *store.Book, car tuning.Car, event tuning.Event) error {
			return b.Remind(ctx, event, car, false)
		}, "they want no reminder of this event"},
		{"cancelled", func(ctx context.Context, b *store.Book, _ tuning.Car, event tuning.Event) error {
			event.Cancelled = true
			_, err := b.SaveEvent(ctx, event)
			return err
		}, "the event is cancelled"},
	} {
		t.Run(c.name, func(t *testing.T) {
			w, club, event := springDay(t)
			w.goTo(club, "2027-05-07 19:00")
			w.wantMail(checkSam)
			w.clock.set(event.Ends)
			w.ask(person(harrow, "sam"), func(ctx context.Context, b *store.Book) error {
				car, err := b.Car(ctx, "person-sam", "")
				must(t, err)
				return c.do(ctx, b, car, event)
			})
			w.goTo(club, "2027-05-08 20:00")
			w.goTo(club, "2027-05-09 20:00")
			w.wantMail()
			w.wantRows("check-before person-sam sent", "ask-feel person-sam dropped "+c.note, "ask-again person-sam dropped "+c.note)
		})
	}
}

// A machine that slept sends what is still of use, and drops the rest.
func TestAsleep(t *testing.T) {
	for _, c := range []struct {
		wakes string
		mail  []string
		rows  []string
	}{
		{"2027-05-08 08:30", []string{checkSam}, []string{"check-before person-sam sent", "ask-feel person-sam open", "ask-again person-sam open"}},
		{"2027-05-08 20:30", []string{askSam}, []string{"check-before person-sam dropped too late to be of use", "ask-feel person-sam sent", "ask-again person-sam open"}},
		// At night nobody is written to, and in the morning the second question is near.
		{"2027-05-09 03:00", nil, []string{"check-before person-sam dropped too late to be of use",
			"ask-feel person-sam dropped no decent hour is left while it is of use", "ask-again person-sam open"}},
		{"2027-05-09 20:30", []string{askSam}, []string{"check-before person-sam dropped too late to be of use",
			"ask-feel person-sam dropped too late to be of use", "ask-again person-sam sent"}},
		{"2027-06-09 12:00", nil, []string{"check-before person-sam dropped too late to be of use",
			"ask-feel person-sam dropped too late to be of use", "ask-again person-sam dropped too late to be of use"}},
	} {
		t.Run(c.wakes, func(t *testing.T) {
			w, club, _ := springDay(t)
			w.goTo(club, c.wakes)
			w.wantMail(c.mail...)
			w.wantRows(c.rows...)
		})
	}
}

// What comes late into the quiet hours waits for their end, and that is no
// attempt.
func TestLateIntoTheQuietHours(t *testing.T) {
	w, club, _ := springDay(t)
	w.goTo(club, "2027-05-10 05:00")
	w.wantMail()
	w.goTo(club, "2027-05-10 07:59")
	w.wantMail()
	w.goTo(club, "2027-05-10 08:00")
	w.wantMail(askSam)
	var attempts int
	must(t, w.admin.Get(&attempts, `select attempts from due where kind = 'ask-again'`))
	if attempts != 1 {
		t.Errorf("sent at attempt %d", attempts)
	}
}

func TestClosedDirectMessages(t *testing.T) {
	w, club, _ := springDay(t)
	w.post.fails["person-sam"] = remind.ErrClosed
	w.goTo(club, "2027-05-07 19:00")
	posted := w.post.take()
	if len(posted) != 1 || posted[0].to != club.Channel || posted[0].reply.Title != "Sam, Spring day starts on Saturday 8 May at 09:00" ||
		!slices.Equal(posted[0].meant, []string{"person-sam"}) {
		t.Errorf("posted %+v", posted)
	}
	// Nothing more is tried before they act.
	tried := w.post.tried
	w.goTo(club, "2027-05-08 20:00")
	posted = w.post.take()
	if len(posted) != 1 || posted[0].reply.Title != "Sam, how did the car feel at Spring day?" || len(posted[0].reply.Actions) != 0 {
		t.Errorf("posted %+v", posted)
	}
	if w.post.tried != tried+1 {
		t.Errorf("%d messages were tried, want 1 more than %d", w.post.tried, tried)
	}
	delete(w.post.fails, "person-sam")
	w.ask(person(harrow, "sam"), func(context.Context, *store.Book) error { return nil })
	w.goTo(club, "2027-05-09 20:00")
	w.wantMail(askSam)
	w.wantRows("check-before person-sam sent in the club's channel", "ask-feel person-sam sent in the club's channel", "ask-again person-sam sent")
}

func TestNowhereToWrite(t *testing.T) {
	w, club, _ := springDay(t)
	w.post.fails["person-sam"] = remind.ErrClosed
	w.post.fails[club.Channel] = remind.ErrRefused
	w.goTo(club, "2027-05-07 19:00")
	club.Channel = ""
	w.ask(person(harrow, "ash"), func(ctx context.Context, b *store.Book) error { return b.SaveClub(ctx, club) })
	w.goTo(club, "2027-05-08 20:00")
	w.wantMail()
	w.wantRows("check-before person-sam gave up nothing can be written there",
		"ask-feel person-sam gave up they take no direct messages, and the club has no channel", "ask-again person-sam open")
}

// What fails is tried again after pauses that double, and given up with the
// reason when that goes on.
func TestBackingOff(t *testing.T) {
	w, club, _ := springDay(t)
	club.QuietFrom, club.QuietTo = 0, 0 // all night
	w.ask(person(harrow, "ash"), func(ctx context.Context, b *store.Book) error { return b.SaveClub(ctx, club) })
	w.post.fails["person-sam"] = errors.New("the platform answered 503")
	var pauses []time.Duration
	w.goTo(club, "2027-05-08 20:00")
	for {
		var next *time.Time
		must(t, w.admin.Get(&next, `select next_at from due where kind = 'ask-feel'`))
		if next == nil {
			break
		}
		pauses = append(pauses, next.Sub(w.clock.Now()))
		w.clock.set(next.Add(-time.Second))
		w.beat()
		w.clock.set(*next)
		w.beat()
	}
	want := 5 * time.Second
	for i, p := range pauses[:10] {
		if p < want/2-time.Millisecond || p >= want {
			t.Errorf("pause %d is %v, want from half of %v to all of it", i+1, p, want)
		}
		want *= 2
	}
	if w.post.tried != len(pauses)+1 {
		t.Errorf("tried %d times with %d pauses", w.post.tried, len(pauses))
	}
	w.wantMail()
	if rows := w.rows(); !slices.Contains(rows, "ask-feel person-sam gave up the platform answered 503") {
		t.Errorf("the timetable says %q", rows)
	}
}

// The quiet hours come while a message cannot be sent: it waits for the morning.
func TestBackingOffIntoTheQuietHours(t *testing.T) {
	w, club, _ := springDay(t)
	w.post.fails["person-sam"] = errors.New("the platform answered 503")
	w.goTo(club, "2027-05-09 20:00") // only the second question is of use
	for w.clock.Now().Before(w.local(club, "2027-05-09 21:30")) {
		w.clock.advance(5 * time.Minute)
		w.beat()
	}
	delete(w.post.fails, "person-sam")
	w.goTo(club, "2027-05-10 07:59")
	w.wantMail()
	w.goTo(club, "2027-05-10 08:00")
	w.wantMail(askSam)
}

// A message whose sending panics every time is given up too, not tried for
// ever.
func TestAnErrandThatPanics(t *testing.T) {
	w, club, _ := springDay(t)
	w.heart.Messenger = nil
	w.clock.set(w.local(club, "2027-05-08 20:00"))
	for range 20 {
		w.beat()
		w.clock.advance(2 * time.Minute)
	}
	if rows := w.rows(); !slices.Contains(rows, "ask-feel person-sam gave up it was never seen through") {
		t.Errorf("the timetable says %q", rows)
	}
}

// students is what a coach's students did, or that they did nothing.
type students struct {
	text      string
	none      bool // the coach has none
	err       error
	from, to  time.Time
	delivered int
}

func (s *students) Digest(_ context.Context, club, coach string, from, to time.Time) (bot.Digest, error) {
	s.from, s.to = from, to
	if s.none {
		return bot.Digest{}, s.err
	}
	return bot.Digest{Reply: bot.Reply{Title: "Your students' week", Text: s.text}, Students: []string{"person-sam"}, News: s.text != ""}, s.err
}

func (s *students) Delivered(context.Context, string, string, bot.Digest) error {
	s.delivered++
	return nil
}

func TestDigest(t *testing.T) {
	w, club, _ := springDay(t)
	s := &students{text: "Sam changed four clicks."}
	w.heart.Digests = s
	w.clock.set(w.local(club, "2027-03-24 12:00")) // before the clocks go forward
	w.ask(person(harrow, "ash"), func(ctx context.Context, b *store.Book) error {
		due, err := calendar.ForCoach(club, "person-ash", w.clock.Now())
		must(t, err)
		return b.Schedule(ctx, 0, "person-ash", []calendar.Due{due})
	})
	w.goTo(club, "2027-03-29 08:59")
	w.wantMail()
	w.goTo(club, "2027-03-29 09:00")
	got := w.post.take()
	if len(got) != 1 || got[0].to != "person-ash" || got[0].reply.Text != s.text {
		t.Errorf("the coach gets %+v", got)
	}
	if !s.from.Equal(w.local(club, "2027-03-22 09:00")) || !s.to.Equal(w.clock.Now()) {
		t.Errorf("it looks back on %s to %s", s.from, s.to)
	}
	s.text = ""
	w.goTo(club, "2027-04-05 09:00") // nothing to tell
	w.wantMail()
	s.text = "Sam again."
	w.goTo(club, "2027-04-12 09:00")
	w.wantMail("person-ash: Your students' week")
	// It is nothing for the channel.
	w.post.fails["person-ash"] = remind.ErrClosed
	w.goTo(club, "2027-04-19 09:00")
	w.wantMail()
	if rows := w.rows(); !slices.Contains(rows, "digest person-ash gave up they take no direct messages") {
		t.Errorf("the timetable says %q", rows)
	}
	delete(w.post.fails, "person-ash")
	w.ask(person(harrow, "ash"), func(context.Context, *store.Book) error { return nil })
	s.err = errors.New("the students cannot be read")
	w.goTo(club, "2027-04-26 09:00")
	w.wantMail()
	s.err = nil
	w.goTo(club, "2027-04-26 09:01")
	w.wantMail("person-ash: Your students' week")
	if s.delivered != 3 {
		t.Errorf("%d digests count as delivered, want the 3 that arrived", s.delivered)
	}
	// Whoever has no students left gets no more of them.
	s.none = true
	w.goTo(club, "2027-05-03 09:00")
	w.wantMail()
	var left int
	must(t, w.admin.Get(&left, `select count(*) from due where kind = 'digest' and next_at is not null`))
	if left != 0 {
		t.Errorf("%d digests are to come without a student", left)
	}
}

// board makes guides and remembers which was posted.
type board struct {
	text, posted string
	err          error
}

func (b *board) Guide(context.Context, string, int64) (bot.Reply, string, error) {
	hash := "hash of " + b.text
	if hash == b.posted {
		hash = ""
	}
	return bot.Reply{Title: b.text}, hash, b.err
}

func (b *board) Posted(_ context.Context, _ string, _ int64, hash string) error {
	b.posted = hash
	return nil
}

func TestGuideIsPosted(t *testing.T) {
	w, club, event := springDay(t)
	guides := &board{text: "Guide of Spring day"}
	w.heart.Guides = guides
	schedule := func(at string) {
		event.GuideAt = w.local(club, at)
		w.ask(person(harrow, "ash"), func(ctx context.Context, b *store.Book) error {
			return b.Schedule(ctx, event.ID, "", calendar.ForChannel(club, event, w.clock.Now()))
		})
	}
	schedule("2027-05-05 23:00") // an hour of the organiser's own choice
	w.goTo(club, "2027-05-05 22:59")
	w.wantMail()
	w.goTo(club, "2027-05-05 23:00")
	w.wantMail(club.Channel + ": Guide of Spring day")
	if guides.posted != "hash of Guide of Spring day" {
		t.Errorf("noted as posted: %q", guides.posted)
	}
	schedule("2027-05-06 12:00")
	w.goTo(club, "2027-05-06 12:00")
	w.wantMail() // it is as it was
	guides.text = "Guide of Spring day, with rain"
	schedule("2027-05-06 18:00")
	w.goTo(club, "2027-05-06 18:00")
	w.wantMail(club.Channel + ": Guide of Spring day, with rain")
}

// Run is the tick: it sends what is due, and stopped in the middle it settles
// what it sent.
func TestRun(t *testing.T) {
	w, club, _ := springDay(t)
	w.clock.set(w.local(club, "2027-05-08 20:00"))
	ctx, stop := context.WithCancel(t.Context())
	w.heart.Messenger = messengerFunc(func(title string) {
		if !strings.HasPrefix(title, "How did the car feel") {
			t.Errorf("it sends %q", title)
		}
		stop()
	})
	w.heart.Run(ctx, time.Second)
	if rows := w.rows(); !slices.Contains(rows, "ask-feel person-sam sent") {
		t.Errorf("the timetable says %q", rows)
	}
}

// messengerFunc is told the title of what it is to send.
type messengerFunc func(title string)

func (f messengerFunc) Direct(_ context.Context, _, _ string, r bot.Reply, _ string) error {
	f(r.Title)
	return nil
}

func (f messengerFunc) Post(_ context.Context, _ string, r bot.Reply, _ string, _ ...string) error {
	f(r.Title)
	return nil
}
