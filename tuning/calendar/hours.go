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

// HoursOf returns a club's hours, or a Refusal when its zone is none.
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

// Decent returns the first instant from t on that is not quiet. It goes from
// one change of the clocks to the next, for each may end the quiet hours or
// bring them back.
func (h Hours) Decent(t time.Time) time.Time {
	for h.Quiet(t) {
		local := t.In(h.Zone)
		_, change := local.ZoneBounds()
		t = t.Add((h.To - timeOfDay(local) + day) % day)
		if !change.IsZero() && change.Before(t) {
			t = change
		}
	}
	return t
}

// after returns the time of day clock, some days after t on the clocks of the
// zone.
func (h Hours) after(t time.Time, days int, clock time.Duration) time.Time {
	at, _ := Settle(onDay(t.In(h.Zone), days, clock), h.Zone)
	return at
}
