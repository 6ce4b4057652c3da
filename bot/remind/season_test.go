package remind_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"detent/store"
	"detent/tuning"
	"detent/tuning/calendar"
)

// A season of 40 events in three zones, over the change of the clocks in
// spring and in autumn in each: in the north by an hour, in the south, the
// other way round, by half an hour. Every message must arrive at its time on
// the club's clocks and no other.
func TestASeason(t *testing.T) {
	t.Parallel()
	w := newRemindedClub(t)
	w.clock.set(time.Date(2027, 2, 25, 12, 0, 0, 0, time.UTC))
	w.heart.Digests = &students{text: "what they did"}
	var want []string
	events := 0
	for _, zone := range []string{"Europe/Berlin", "America/New_York", "Australia/Lord_Howe"} {
		s := &season{remindedClub: w, club: w.club("club of "+zone, zone)}
		// Every third Saturday from 6 March, and the days around each change.
		for day := date("2027-03-06"); len(s.days) < 12; day = day.AddDate(0, 0, 21) {
			s.days = append(s.days, day.Format(time.DateOnly))
		}
		s.days = append(s.days, map[string][]string{
			"Europe/Berlin":       {"2027-10-31"},
			"America/New_York":    {"2027-03-14", "2027-11-07"},
			"Australia/Lord_Howe": {"2027-10-03"},
		}[zone]...)
		for i, day := range s.days {
			s.day(day, i%4 == 3)
		}
		s.digests("2027-03-01", "2027-11-29")
		want, events = append(want, s.want...), events+len(s.days)
	}
	if events != 40 {
		t.Fatalf("the season has %d events", events)
	}

	var got []string
	for {
		var next *time.Time
		must(t, w.admin.Get(&next, `select min(next_at) from due where due_at < '2027-11-30'`))
		if next == nil {
			break
		}
		w.clock.set(next.Add(-time.Second))
		w.beat() // nothing may come too early
		w.clock.set(*next)
		w.beat()
		for _, m := range w.post.take() {
			got = append(got, arrival(m))
			w.answer(m)
		}
	}
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("%d messages arrived, want %d", len(got), len(want))
		for _, line := range difference(got, want) {
			t.Errorf("unwanted: %s", line)
		}
		for _, line := range difference(want, got) {
			t.Errorf("missing: %s", line)
		}
	}
	t.Logf("%d messages of %d events", len(got), events)
}

// season is a club's year and the messages that should come of it, each with
// its time on the club's clocks.
type season struct {
	remindedClub
	club tuning.Club
	days []string
	want []string
}

// day is an event of one day with two entrants: Sam, who answers when asked,
// and Kim, who never does. A long day ends so late that the question comes the
// next morning.
func (s *season) day(day string, long bool) {
	ends, asks, again := "17:00", day+" 20:00", after(day, 1)+" 20:00"
	if long {
		ends, asks, again = "19:30", after(day, 1)+" 08:00", after(day, 2)+" 08:00"
	}
	event := s.event(s.club, "Day of "+day, day+" 09:00", day+" "+ends)
	for _, name := range []string{"sam", "kim"} {
		name += " of " + s.club.Zone // people are told apart by it
		s.enter(s.club, event, name, "Blue hatch")
		s.expect(name, after(day, -1)+" 19:00", event.Name+" starts on "+date(day).Format("Monday 2 January")+" at 09:00")
		s.expect(name, asks, "How did the car feel at "+event.Name+"?")
		if strings.HasPrefix(name, "kim") {
			s.expect(name, again, "How did the car feel at "+event.Name+"?")
		}
	}
}

// answer is Sam's, when asked.
func (w remindedClub) answer(m mail) {
	name := strings.TrimPrefix(m.to, "person-")
	if !strings.HasPrefix(name, "sam") || !strings.HasPrefix(m.reply.Title, "How did") {
		return
	}
	w.ask(person("club of "+zoneOf(name), name), func(ctx context.Context, b *store.Book) error {
		car, err := b.Car(ctx, m.to, "")
		if err != nil {
			return err
		}
		_, err = b.SaveFeel(ctx, tuning.Feel{Car: car.ID, Grip: 7})
		return err
	})
}

// digests are a coach's, every Monday morning.
func (s *season) digests(first, last string) {
	name := "coach of " + s.club.Zone
	s.ask(person(s.club.Key, name), func(ctx context.Context, b *store.Book) error {
		due, err := calendar.ForCoach(s.club, "person-"+name, s.clock.Now())
		must(s.T, err)
		return b.Schedule(ctx, 0, "person-"+name, []calendar.Due{due})
	})
	for day := first; day <= last; day = after(day, 7) {
		s.expect(name, day+" 09:00", "Your students' week")
	}
}

func (s *season) expect(name, at, title string) {
	s.want = append(s.want, fmt.Sprintf("%s to person-%s: %s", at, name, title))
}

// zoneOf is what a person's name ends in.
func zoneOf(name string) string { return name[strings.LastIndex(name, " ")+1:] }

// arrival is a message with its time on the clocks of the zone of whom it is to.
func arrival(m mail) string {
	zone, err := time.LoadLocation(zoneOf(m.to))
	if err != nil {
		return err.Error()
	}
	return fmt.Sprintf("%s to %s: %s", m.at.In(zone).Format("2006-01-02 15:04"), m.to, m.reply.Title)
}

func date(text string) time.Time {
	day, err := time.Parse(time.DateOnly, text)
	if err != nil {
		panic(err)
	}
	return day
}

// after is the date some days after another.
func after(day string, days int) string { return date(day).AddDate(0, 0, days).Format(time.DateOnly) }

// difference is what is in a and not in b.
func difference(a, b []string) (only []string) {
	for _, line := range a {
		if !slices.Contains(b, line) {
			only = append(only, line)
		}
	}
	return only
}
