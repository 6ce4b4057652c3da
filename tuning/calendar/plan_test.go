package calendar_test

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"detent/tuning"
	"detent/tuning/calendar"
)

const wall = "Mon 2006-01-02 15:04"

// harrow is an invented club whose quiet hours run from nine to eight.
func harrow(zone string) tuning.Club {
	club := tuning.DefaultClub("harrow")
	club.Zone = zone
	return club
}

// local is an instant on the clocks of a zone.
func local(t rapid.TB, name, text string) time.Time {
	t.Helper()
	at, _ := calendar.Settle(clock(t, text), zone(t, name))
	return at
}

func eventAt(t rapid.TB, zone, starts, ends string) tuning.Event {
	return tuning.Event{ID: 7, Name: "Spring day", Starts: local(t, zone, starts), Ends: local(t, zone, ends)}
}

func TestForEntrant(t *testing.T) {
	const berlin = "Europe/Berlin"
	robin := tuning.Entrant{Person: "p1", Reminded: true}
	for _, c := range []struct {
		name         string
		starts, ends string
		now          string
		due          []string // kind, due, of use until
	}{
		{"long before", "2027-05-08 09:00", "2027-05-08 17:00", "2027-04-01 12:00", []string{
			"check-before Fri 2027-05-07 19:00 Sat 2027-05-08 09:00",
			"ask-feel Sat 2027-05-08 20:00 Sun 2027-05-09 08:00",
			"ask-again Sun 2027-05-09 20:00 Tue 2027-05-11 08:00"}},
		{"into the quiet hours", "2027-05-08 09:00", "2027-05-08 18:30", "2027-04-01 12:00", []string{
			"check-before Fri 2027-05-07 19:00 Sat 2027-05-08 09:00",
			"ask-feel Sun 2027-05-09 08:00 Sun 2027-05-09 20:00",
			"ask-again Mon 2027-05-10 08:00 Tue 2027-05-11 20:00"}},
		{"over the clocks going forward", "2027-03-27 09:00", "2027-03-27 17:00", "2027-03-01 12:00", []string{
			"check-before Fri 2027-03-26 19:00 Sat 2027-03-27 09:00",
			"ask-feel Sat 2027-03-27 20:00 Sun 2027-03-28 08:00",
			"ask-again Sun 2027-03-28 20:00 Tue 2027-03-30 08:00"}},
		{"over the clocks going back", "2027-10-30 09:00", "2027-10-30 17:00", "2027-10-01 12:00", []string{
			"check-before Fri 2027-10-29 19:00 Sat 2027-10-30 09:00",
			"ask-feel Sat 2027-10-30 20:00 Sun 2027-10-31 08:00",
			"ask-again Sun 2027-10-31 20:00 Tue 2027-11-02 08:00"}},
		{"entered late in the evening", "2027-05-08 11:00", "2027-05-08 17:00", "2027-05-07 22:00", []string{
			"check-before Sat 2027-05-08 09:00 Sat 2027-05-08 11:00",
			"ask-feel Sat 2027-05-08 20:00 Sun 2027-05-09 08:00",
			"ask-again Sun 2027-05-09 20:00 Tue 2027-05-11 08:00"}},
		{"starts before anyone may be written to", "2027-05-08 08:00", "2027-05-08 17:00", "2027-05-07 22:00", []string{
			"ask-feel Sat 2027-05-08 20:00 Sun 2027-05-09 08:00",
			"ask-again Sun 2027-05-09 20:00 Tue 2027-05-11 08:00"}},
		{"over for some hours, late at night", "2027-05-08 09:00", "2027-05-08 12:00", "2027-05-08 23:00", []string{
			"ask-again Sun 2027-05-09 15:00 Tue 2027-05-11 03:00"}},
		{"over for some hours", "2027-05-08 09:00", "2027-05-08 12:00", "2027-05-08 20:30", []string{
			"ask-feel Sat 2027-05-08 20:30 Sun 2027-05-09 03:00",
			"ask-again Sun 2027-05-09 15:00 Tue 2027-05-11 03:00"}},
		{"over for two days", "2027-05-08 09:00", "2027-05-08 12:00", "2027-05-10 12:00", []string{
			"ask-again Mon 2027-05-10 12:00 Tue 2027-05-11 03:00"}},
		{"long over", "2027-05-08 09:00", "2027-05-08 12:00", "2027-06-08 12:00", nil},
		{"over several days", "2027-05-08 09:00", "2027-05-10 16:00", "2027-04-01 12:00", []string{
			"check-before Fri 2027-05-07 19:00 Sat 2027-05-08 09:00",
			"ask-feel Mon 2027-05-10 19:00 Tue 2027-05-11 07:00",
			"ask-again Tue 2027-05-11 19:00 Thu 2027-05-13 07:00"}},
	} {
		due, err := calendar.ForEntrant(harrow(berlin), eventAt(t, berlin, c.starts, c.ends), robin, local(t, berlin, c.now))
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, d := range due {
			z := zone(t, berlin)
			got = append(got, string(d.Kind)+" "+d.At.In(z).Format(wall)+" "+d.Until.In(z).Format(wall))
			if d.Club != "harrow" || d.Person != "p1" || d.Event != 7 {
				t.Errorf("%s: due of %q, %q, %d", c.name, d.Club, d.Person, d.Event)
			}
		}
		if !slices.Equal(got, c.due) {
			t.Errorf("%s:\n got %q\nwant %q", c.name, got, c.due)
		}
	}
}

func TestNothingDue(t *testing.T) {
	event := eventAt(t, "UTC", "2027-05-08 09:00", "2027-05-08 17:00")
	now := event.Starts.Add(-72 * time.Hour)
	kinds := func(event tuning.Event, entrant tuning.Entrant) (kinds []calendar.Kind) {
		due, err := calendar.ForEntrant(harrow("UTC"), event, entrant, now)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range due {
			kinds = append(kinds, d.Kind)
		}
		return kinds
	}
	if k := kinds(event, tuning.Entrant{Reminded: false}); k != nil {
		t.Errorf("refused, and yet due: %q", k)
	}
	if k := kinds(event, tuning.Entrant{Reminded: true, Answered: true}); !slices.Equal(k, []calendar.Kind{calendar.CheckBefore}) {
		t.Errorf("answered, and due: %q", k)
	}
	if k := kinds(event, tuning.Entrant{Reminded: true, Car: tuning.Car{Retired: true}}); k != nil {
		t.Errorf("the car is retired, and yet due: %q", k)
	}
	event.Cancelled = true
	if k := kinds(event, tuning.Entrant{Reminded: true}); k != nil {
		t.Errorf("cancelled, and yet due: %q", k)
	}
	_, err := calendar.ForEntrant(harrow("Nowhere"), event, tuning.Entrant{}, now)
	if tuning.KindOf(err) != tuning.Invalid {
		t.Errorf("a zone that is none: %v", err)
	}
}

// Whatever the club, the event and the hour: nothing is due in the quiet
// hours, in the past or when it is of no use any more, and the two questions
// are at least half a day apart.
func TestForEntrantHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		club := harrow(rapid.SampledFrom(zones).Draw(t, "zone"))
		minutes := func(name string, most int) time.Duration {
			return time.Duration(rapid.IntRange(0, most).Draw(t, name)) * time.Minute
		}
		club.QuietFrom, club.QuietTo, club.RemindAfter = minutes("from", 1440), minutes("to", 1440), minutes("after", 3000)
		starts := moments(zone(t, club.Zone)).Draw(t, "starts")
		event := tuning.Event{Starts: starts, Ends: starts.Add(minutes("length", 5000))}
		now := starts.Add(minutes("now", 20000) - 10000*time.Minute)
		due, err := calendar.ForEntrant(club, event, tuning.Entrant{Reminded: true}, now)
		if err != nil {
			t.Fatal(err)
		}
		h := hours(t, club.Zone, club.QuietFrom, club.QuietTo)
		var asked time.Time
		for _, d := range due {
			if h.Quiet(d.At) || d.At.Before(now) || !d.At.Before(d.Until) {
				t.Errorf("%s due at %s, of use until %s", d.Kind, d.At, d.Until)
			}
			switch d.Kind {
			case calendar.CheckBefore:
				if !d.At.Before(starts) {
					t.Errorf("a check before that comes after: %s", d.At)
				}
			case calendar.AskFeel:
				asked = d.At
				fallthrough
			case calendar.AskAgain:
				if d.At.Before(event.Ends.Add(club.RemindAfter)) {
					t.Errorf("asked too early, at %s", d.At)
				}
			}
			if d.Kind == calendar.AskAgain && !asked.IsZero() && d.At.Sub(asked) < 12*time.Hour {
				t.Errorf("asked at %s and again at %s", asked, d.At)
			}
		}
	})
}

func TestForChannel(t *testing.T) {
	event := eventAt(t, "UTC", "2027-05-08 09:00", "2027-05-08 17:00")
	club := harrow("UTC")
	if due := calendar.ForChannel(club, event, event.Starts.Add(-time.Hour)); due != nil {
		t.Errorf("posted by hand, and yet due: %v", due)
	}
	event.GuideAt = event.Starts.Add(-10 * time.Hour) // in the quiet hours
	want := calendar.Due{Club: "harrow", Kind: calendar.PostGuide, Event: 7, At: event.GuideAt, Until: event.Starts}
	for _, now := range []time.Time{event.GuideAt.Add(-time.Hour), event.GuideAt.Add(time.Hour)} {
		if due := calendar.ForChannel(club, event, now); len(due) != 1 || due[0] != want {
			t.Errorf("at %s: %v", now, due)
		}
	}
	if due := calendar.ForChannel(club, event, event.Starts); due != nil {
		t.Errorf("due when the event has started: %v", due)
	}
	event.GuideAt = event.Ends
	if due := calendar.ForChannel(club, event, event.Starts.Add(-time.Hour)); due != nil {
		t.Errorf("due after the event: %v", due)
	}
}

func TestForCoach(t *testing.T) {
	for _, c := range []struct{ zone, now, due, from string }{
		{"Europe/Berlin", "2027-03-24 12:00", "Mon 2027-03-29 09:00", "Mon 2027-03-22 09:00"}, // the clocks change between
		{"Europe/Berlin", "2027-03-29 08:59", "Mon 2027-03-29 09:00", "Mon 2027-03-22 09:00"},
		{"Europe/Berlin", "2027-03-29 09:00", "Mon 2027-04-05 09:00", "Mon 2027-03-29 09:00"},
		{"Europe/Berlin", "2027-10-31 23:30", "Mon 2027-11-01 09:00", "Mon 2027-10-25 09:00"},
		{"Pacific/Auckland", "2027-04-04 12:00", "Mon 2027-04-05 09:00", "Mon 2027-03-29 09:00"},
	} {
		due, err := calendar.ForCoach(harrow(c.zone), "p9", local(t, c.zone, c.now))
		if err != nil {
			t.Fatal(err)
		}
		h := hours(t, c.zone, 21*time.Hour, 8*time.Hour)
		from, to := h.Week(due.At)
		if got := due.At.In(h.Zone).Format(wall); got != c.due || !to.Equal(due.At) {
			t.Errorf("after %s in %s: due %s to %s, not %s", c.now, c.zone, got, to, c.due)
		}
		if got := from.In(h.Zone).Format(wall); got != c.from {
			t.Errorf("the digest of %s looks back to %s, not %s", c.due, got, c.from)
		}
		if due.Kind != calendar.Digest || due.Person != "p9" || due.Club != "harrow" || !due.At.Before(due.Until) {
			t.Errorf("%+v", due)
		}
	}
	late := harrow("UTC")
	late.QuietTo = 11 * time.Hour
	due, err := calendar.ForCoach(late, "p9", clock(t, "2027-03-24 12:00"))
	if got := due.At.Format(wall); err != nil || got != "Mon 2027-03-29 11:00" {
		t.Errorf("a club that sleeps late: %s, %v", got, err)
	}
	if _, err := calendar.ForCoach(harrow("Nowhere"), "p9", time.Time{}); tuning.KindOf(err) != tuning.Invalid {
		t.Errorf("a zone that is none: %v", err)
	}
}
