package calendar_test

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"detent/tuning"
	"detent/tuning/calendar"
)

func zone(t rapid.TB, name string) *time.Location {
	t.Helper()
	z, err := calendar.Zone(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

// clock reads a wall-clock time, in no zone yet.
func clock(t rapid.TB, text string) time.Time {
	t.Helper()
	at, err := time.Parse("2006-01-02 15:04", text)
	if err != nil {
		t.Fatal(err)
	}
	return at
}

func TestSettle(t *testing.T) {
	for _, c := range []struct {
		zone, wall, utc string
		odd             calendar.Odd
	}{
		// The two examples of RFC 5545, section 3.3.5.
		{"America/New_York", "2007-11-04 01:30", "2007-11-04 05:30", calendar.ComesTwice},
		{"America/New_York", "2007-03-11 02:30", "2007-03-11 07:30", calendar.JumpedOver},
		// The rest follows from the rules of each zone.
		{"Europe/Berlin", "2027-03-28 01:59", "2027-03-28 00:59", ""},
		{"Europe/Berlin", "2027-03-28 02:00", "2027-03-28 01:00", calendar.JumpedOver},
		{"Europe/Berlin", "2027-03-28 03:00", "2027-03-28 01:00", ""},
		{"Europe/Berlin", "2027-10-31 02:00", "2027-10-31 00:00", calendar.ComesTwice},
		{"Europe/Berlin", "2027-10-31 03:00", "2027-10-31 02:00", ""},
		{"Australia/Lord_Howe", "2026-10-04 02:15", "2026-10-03 15:45", calendar.JumpedOver}, // half an hour forward
		{"Australia/Lord_Howe", "2026-04-05 01:45", "2026-04-04 14:45", calendar.ComesTwice}, // half an hour back
		{"Australia/Lord_Howe", "2026-04-05 01:29", "2026-04-04 14:29", ""},                  // just before
		{"Pacific/Apia", "2011-12-30 12:00", "2011-12-30 22:00", calendar.JumpedOver},        // a whole day jumped over
		{"Asia/Kolkata", "2027-03-28 02:30", "2027-03-27 21:00", ""},                         // never changes
		{"UTC", "2027-03-28 02:30", "2027-03-28 02:30", ""},
	} {
		at, odd := calendar.Settle(clock(t, c.wall), zone(t, c.zone))
		if got := at.UTC().Format("2006-01-02 15:04"); got != c.utc {
			t.Errorf("%s in %s is %s UTC, not %s", c.wall, c.zone, got, c.utc)
		}
		if odd != c.odd {
			t.Errorf("%s in %s: %q, want %q", c.wall, c.zone, odd, c.odd)
		}
	}
}

func TestNoSuchZone(t *testing.T) {
	for _, name := range []string{"", "Local", "Europe/Nowhere", "../etc/passwd", "GMT+25"} {
		z, err := calendar.Zone(name)
		if z != nil || tuning.KindOf(err) != tuning.Invalid {
			t.Errorf("zone %q: %v, %v", name, z, err)
		}
	}
}

// zones have clocks that change by an hour, by half an hour, in the southern
// summer, by daylight in winter, and never.
var zones = []string{"Europe/Berlin", "America/New_York", "Australia/Lord_Howe", "Pacific/Auckland",
	"America/St_Johns", "Europe/Dublin", "Asia/Kathmandu", "Pacific/Kiritimati", "UTC"}

// moments draws an instant, every second time near a change of the clocks.
func moments(z *time.Location) *rapid.Generator[time.Time] {
	return rapid.Custom(func(t *rapid.T) time.Time {
		at := time.Unix(60*rapid.Int64Range(1735689600/60, 1893456000/60).Draw(t, "minute"), 0).In(z) // 2025 to 2029
		if _, end := at.ZoneBounds(); !end.IsZero() && end.Year() < 2031 && rapid.Bool().Draw(t, "near") {
			at = end.Add(time.Duration(rapid.IntRange(-200, 200).Draw(t, "off")) * time.Minute)
		}
		return at
	})
}

// An instant that is read off a clock and settled again is the same instant,
// or, when the clock shows it twice, the earlier of the two.
func TestSettleTakesTheFirst(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		z := zone(t, rapid.SampledFrom(zones).Draw(t, "zone"))
		at := moments(z).Draw(t, "at")
		got, odd := calendar.Settle(at, z)
		first := at
		for earlier := at.Add(-time.Minute); at.Sub(earlier) <= 2*time.Hour; earlier = earlier.Add(-time.Minute) {
			if earlier.Format("2006-01-02 15:04") == at.Format("2006-01-02 15:04") {
				first = earlier
			}
		}
		if !got.Equal(first) {
			t.Fatalf("%s settles at %s, not %s", at, got, first)
		}
		if !first.Equal(at) && odd == "" {
			t.Fatalf("%s comes twice and it is not told", at)
		}
	})
}
