package calendar_test

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"detent/tuning"
	"detent/tuning/calendar"
)

func hours(t rapid.TB, zone string, from, to time.Duration) calendar.Hours {
	t.Helper()
	h, err := calendar.HoursOf(tuning.Club{Zone: zone, QuietFrom: from, QuietTo: to})
	if err != nil {
		t.Fatal(err)
	}
	return h
}

func TestDecent(t *testing.T) {
	for _, c := range []struct {
		zone     string
		from, to time.Duration
		utc      string
		decent   string // UTC
	}{
		{"UTC", 21 * time.Hour, 8 * time.Hour, "2026-05-02 20:59", "2026-05-02 20:59"},
		{"UTC", 21 * time.Hour, 8 * time.Hour, "2026-05-02 21:00", "2026-05-03 08:00"},
		{"UTC", 21 * time.Hour, 8 * time.Hour, "2026-05-03 07:59", "2026-05-03 08:00"},
		{"UTC", 21 * time.Hour, 8 * time.Hour, "2026-05-03 08:00", "2026-05-03 08:00"},
		{"UTC", 12 * time.Hour, 14 * time.Hour, "2026-05-03 13:00", "2026-05-03 14:00"}, // not over midnight
		{"UTC", 22 * time.Hour, 24 * time.Hour, "2026-05-03 23:00", "2026-05-04 00:00"}, // to midnight
		{"UTC", 9 * time.Hour, 9 * time.Hour, "2026-05-03 09:00", "2026-05-03 09:00"},   // none
		// The night of the change is an hour shorter, or longer.
		{"Europe/Berlin", 21 * time.Hour, 8 * time.Hour, "2027-03-27 22:00", "2027-03-28 06:00"},
		{"Europe/Berlin", 21 * time.Hour, 8 * time.Hour, "2027-10-30 22:00", "2027-10-31 07:00"},
		// The end of the quiet hours is jumped over: they end with the jump.
		{"Europe/Berlin", 21 * time.Hour, 150 * time.Minute, "2027-03-28 00:30", "2027-03-28 01:00"},
		// The end comes twice: it is quiet until the first, and from when the
		// clocks go back until the second.
		{"Europe/Berlin", 21 * time.Hour, 150 * time.Minute, "2027-10-30 23:00", "2027-10-31 00:30"},
		{"Europe/Berlin", 21 * time.Hour, 150 * time.Minute, "2027-10-31 00:45", "2027-10-31 00:45"},
		{"Europe/Berlin", 21 * time.Hour, 150 * time.Minute, "2027-10-31 01:10", "2027-10-31 01:30"},
	} {
		got := hours(t, c.zone, c.from, c.to).Decent(clock(t, c.utc)).UTC().Format("2006-01-02 15:04")
		if got != c.decent {
			t.Errorf("%s UTC in %s, quiet from %v to %v: %s, not %s", c.utc, c.zone, c.from, c.to, got, c.decent)
		}
	}
}

// The decent minute is the first from then on that a clock on the wall, looked
// at minute by minute, shows outside the quiet hours.
func TestDecentIsTheFirst(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		minutes := rapid.IntRange(0, 1440)
		name := rapid.SampledFrom(zones).Draw(t, "zone")
		from, to := minutes.Draw(t, "from"), minutes.Draw(t, "to")
		h := hours(t, name, time.Duration(from)*time.Minute, time.Duration(to)*time.Minute)
		at := moments(h.Zone).Draw(t, "at")
		want := at
		for quietAt(want, from%1440, to%1440) {
			want = want.Add(time.Minute)
		}
		if got := h.Decent(at); !got.Equal(want) {
			t.Fatalf("%s is decent at %s, not %s", at, got, want)
		}
	})
}

// quietAt tells whether the minute of the day is fewer minutes after the start
// of the quiet hours than their end is.
func quietAt(at time.Time, from, to int) bool {
	since := func(minute int) int { return (minute - from + 1440) % 1440 }
	return since(at.Hour()*60+at.Minute()) < since(to)
}
