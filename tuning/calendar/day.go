package calendar

import (
	"time"

	"detent/tuning"
)

// ClubZone is the club's time zone, UTC where the settings name none that is
// known.
func ClubZone(club tuning.Club) *time.Location {
	zone, err := time.LoadLocation(club.Zone)
	if err != nil {
		return time.UTC
	}
	return zone
}

// Year is a year of the club: its first moment, and that of the next.
func Year(year int, zone *time.Location) (from, to time.Time) {
	begin := func(y int) time.Time { return time.Date(y, time.January, 1, 0, 0, 0, 0, zone) }
	return begin(year), begin(year + 1)
}

// SameDay tells whether two moments fall on one day of the club.
func SameDay(a, b time.Time, zone *time.Location) bool {
	ay, am, ad := a.In(zone).Date()
	by, bm, bd := b.In(zone).Date()
	return !a.IsZero() && ay == by && am == bm && ad == bd
}

// Today returns the club's day that a moment falls on: when it begins, and
// when the next does.
func Today(now time.Time, zone *time.Location) (from, to time.Time) {
	from, _ = Settle(onDay(now.In(zone), 0, 0), zone)
	to, _ = Settle(onDay(now.In(zone), 1, 0), zone)
	return from, to
}
