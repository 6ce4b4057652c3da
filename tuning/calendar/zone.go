package calendar

import (
	"fmt"
	"time"
	_ "time/tzdata" // the same zones on a machine that has none

	"detent/tuning"
)

// NoZone is a Refusal: a name that no time zone bears.
type NoZone struct{ Name string }

func (n NoZone) Error() string { return fmt.Sprintf("there is no time zone %q", n.Name) }

// Refuses returns Invalid.
func (NoZone) Refuses() tuning.Kind { return tuning.Invalid }

// Zone finds a time zone by its IANA name. It returns NoZone for a name that is
// none.
func Zone(name string) (*time.Location, error) {
	zone, err := time.LoadLocation(name)
	if err != nil || name == "" || name == "Local" {
		return nil, NoZone{name}
	}
	return zone, nil
}

// Settle returns the instant at which the clocks of a zone show the date and
// time of day of wall, whose own zone does not matter. On a day when the
// clocks change, a time that comes twice is the first of the two, and one that
// is jumped over is read off the clocks as they were before the jump
// (RFC 5545, section 3.3.5); odd then tells so.
func Settle(wall time.Time, zone *time.Location) (at time.Time, odd Odd) {
	r := read(wall, zone)
	switch {
	case !r.jump.IsZero():
		odd = JumpedOver
	case !r.second.IsZero():
		odd = ComesTwice
	}
	return r.first, odd
}

// Odd is what the clocks do to a time of day, "" for nothing.
type Odd string

// What they do.
const (
	JumpedOver Odd = "jumped over"
	ComesTwice Odd = "comes twice"
)

// reading is what a zone's clocks make of a wall-clock time.
type reading struct {
	first  time.Time
	second time.Time // zero unless the time comes twice
	jump   time.Time // when the clocks jump over the time, zero when it exists
}

// reach is further from a wall-clock time, taken as UTC, than any zone's
// clocks show it.
const reach = 36 * time.Hour

// read goes through the periods between two changes of a zone's clocks.
func read(wall time.Time, zone *time.Location) (r reading) {
	utc := onDay(wall, 0, timeOfDay(wall))
	var before time.Time // the instant by the clocks of the period before
	for at := utc.Add(-reach).In(zone); ; {
		_, offset := at.Zone()
		start, end := at.ZoneBounds() // zero for an open end
		t := utc.Add(-time.Duration(offset) * time.Second).In(zone)
		tooEarly := t.Before(start)
		tooLate := !end.IsZero() && !t.Before(end)
		switch {
		case !tooEarly && !tooLate && r.first.IsZero():
			r.first = t
		case !tooEarly && !tooLate:
			r.second = t
		case tooEarly && r.first.IsZero():
			r.first, r.jump = before, start
		}
		if end.IsZero() || end.After(utc.Add(reach)) {
			return r
		}
		before, at = t, end
	}
}

// timeOfDay is what a clock beside t shows, from midnight.
func timeOfDay(t time.Time) time.Duration {
	return time.Duration(t.Hour())*time.Hour + time.Duration(t.Minute())*time.Minute +
		time.Duration(t.Second())*time.Second + time.Duration(t.Nanosecond())
}

// onDay is a wall-clock time: the given time of day, some days after t's date.
func onDay(t time.Time, days int, clock time.Duration) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day()+days, 0, 0, 0, 0, time.UTC).Add(clock)
}
