// Package calendar says when something is due: in the club's own time zone, at
// a decent hour, on the days when the clocks change too. It reads no clock.
package calendar
