package calendar

import (
	"time"

	"detent/tuning"
)

// Hours are when the people of a club may be written to: at any time but in
// the quiet hours, which run from From to To on the clocks of Zone and may
// wrap over midnight. From and To alike mean no quiet hours.
type Hours struct {
	Zone     *time.Location
	From, To time.Duration // times of day
}

// HoursOf returns a club's hours, or a Problem when its zone is none.
func HoursOf(club tuning.Club) (Hours, error) {
	zone, err := Zone(club.Zone)
	return Hours{Zone: zone, From: club.QuietFrom % day, To: club.QuietTo % day}, err
}

const day = 24 * time.Hour

// Quiet tells whether no one is to be written to at t.
func (h Hours) Quiet(t time.Time) bool {
	clock := timeOfDay(t.In(h.Zone))
	if h.From <= h.To {
		return h.From <= clock && clock < h.To
	}
	return h.From <= clock || clock < h.To
}

// Decent returns the first instant from t on that is not quiet.
func (h Hours) Decent(t time.Time) time.Time {
	for h.Quiet(t) {
		t = h.end(t)
	}
	return t
}

// end returns when the quiet hours that t is in are over. Where the clocks
// change over that time, they are over as soon as the clocks show it or a
// later one.
func (h Hours) end(t time.Time) time.Time {
	local, days := t.In(h.Zone), 0
	if timeOfDay(local) >= h.To {
		days = 1
	}
	r := read(onDay(local, days, h.To), h.Zone)
	switch {
	case !r.jump.IsZero():
		return r.jump
	case r.first.After(t):
		return r.first
	}
	return r.second // t is between the two
}

// after returns the time of day clock, some days after t on the clocks of the
// zone.
func (h Hours) after(t time.Time, days int, clock time.Duration) time.Time {
	at, _ := Settle(onDay(t.In(h.Zone), days, clock), h.Zone)
	return at
}
