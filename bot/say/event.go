package say

import (
	"fmt"
	"time"

	"detent/tuning"
	"detent/tuning/calendar"
)

// Event says when and where an event is, and what to expect there.
func Event(e tuning.Event, zone *time.Location) string {
	words := Time(e.Starts, zone) + " to " + End(e, zone)
	for _, w := range []string{e.Place, string(e.Surface), Weather(e.Weather)} {
		if w != "" {
			words += ", " + w
		}
	}
	if e.Limit > 0 {
		words += ", " + Count(e.Limit, "place", "places")
	}
	if !e.GuideAt.IsZero() {
		words += ".\nThe guide comes on " + Time(e.GuideAt, zone)
	}
	return words + "."
}

// Weather says what weather is expected: "dry or wet" where nobody can tell.
func Weather(w tuning.Weather) string {
	if w == tuning.Either {
		return "dry or wet"
	}
	return string(w)
}

// Time says a moment on the clocks of the club.
func Time(t time.Time, zone *time.Location) string {
	return t.In(zone).Format("Mon 2 Jan 2006, 15:04")
}

// End is the time of day when an event ends, with the day when it is
// another one.
func End(e tuning.Event, zone *time.Location) string {
	if calendar.SameDay(e.Starts, e.Ends, zone) {
		return e.Ends.In(zone).Format("15:04")
	}
	return Time(e.Ends, zone)
}

// Places says how many cars are in, and how many places are left.
func Places(e tuning.Event, in int) string {
	words := "No car is in yet"
	if in > 0 {
		words = Count(in, "car is", "cars are") + " in"
	}
	if e.Limit > 0 {
		words += fmt.Sprintf(", %s left", Count(e.Limit-in, "place is", "places are"))
	}
	return words + "."
}
