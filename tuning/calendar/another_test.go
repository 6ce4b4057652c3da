package calendar_test

import (
	"testing"
	"time"

	"detent/tuning/calendar"
)

// The changes of clocks are those of the time zone database: in Berlin on 29
// March and 25 October 2026, on Lord Howe by half an hour on 5 April 2026.
func TestAnotherDay(t *testing.T) {
	for _, c := range []struct{ zone, from, to, starts, want string }{
		{"Europe/Berlin", "2026-05-16 09:00", "2026-05-16 17:00", "2026-06-13 10:00", "2026-06-13 18:00"},
		{"Europe/Berlin", "2026-05-16 09:00", "2026-05-16 17:00", "2026-11-14 09:00", "2026-11-14 17:00"},
		{"Europe/Berlin", "2026-03-14 09:00", "2026-03-15 17:00", "2026-03-28 09:00", "2026-03-29 17:00"}, // over the jump
		{"Europe/Berlin", "2026-03-28 09:00", "2026-03-29 17:00", "2026-10-24 09:00", "2026-10-25 17:00"}, // from one to the other
		{"Europe/Berlin", "2026-02-28 22:00", "2026-03-01 02:30", "2026-03-28 22:00", "2026-03-29 03:30"}, // 02:30 does not exist
		{"Australia/Lord_Howe", "2026-03-28 09:00", "2026-03-29 09:00", "2026-04-04 09:00", "2026-04-05 09:00"},
		{"UTC", "2026-12-31 20:00", "2027-01-01 02:00", "2027-02-28 20:00", "2027-03-01 02:00"},
	} {
		zone, err := calendar.Zone(c.zone)
		if err != nil {
			t.Fatal(err)
		}
		read := func(text string) time.Time {
			at, err := time.Parse("2006-01-02 15:04", text)
			if err != nil {
				t.Fatal(err)
			}
			at, _ = calendar.Settle(at, zone)
			return at
		}
		if got := calendar.AnotherDay(read(c.from), read(c.to), read(c.starts), zone).In(zone).Format("2006-01-02 15:04"); got != c.want {
			t.Errorf("%s: %s to %s, moved to %s, ends at %s, want %s", c.zone, c.from, c.to, c.starts, got, c.want)
		}
	}
}
