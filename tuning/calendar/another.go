package calendar

import "time"

// AnotherDay returns when something ends that begins at starts and lasts as long
// by a zone's clocks as what ran from one time to another: from nine to five it
// is nine to five on a day when the clocks change too.
func AnotherDay(from, to, starts time.Time, zone *time.Location) (ends time.Time) {
	began, ended := from.In(zone), to.In(zone)
	length := onDay(ended, 0, timeOfDay(ended)).Sub(onDay(began, 0, timeOfDay(began)))
	local := starts.In(zone)
	ends, _ = Settle(onDay(local, 0, timeOfDay(local)).Add(length), zone)
	return ends
}
