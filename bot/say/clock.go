package say

import (
	"fmt"
	"time"

	"detent/tuning/calendar"
)

// Clock says a time of day: "21:30".
func Clock(d time.Duration) string {
	return fmt.Sprintf("%02d:%02d", d/time.Hour, d%time.Hour/time.Minute)
}

// Odd says what the clocks of a zone do to a time of day that somebody gave, and
// which moment it is taken for; "" where they do nothing.
func Odd(odd calendar.Odd, wall, taken time.Time, zone *time.Location) string {
	when := wall.Format("15:04 on 2 January 2006")
	switch odd {
	case calendar.JumpedOver:
		return fmt.Sprintf("%s does not exist in %s, the clocks jump over it: I take it as %s.", when, zone, taken.In(zone).Format("15:04"))
	case calendar.ComesTwice:
		return fmt.Sprintf("%s comes twice in %s, the clocks go back over it: I take the first, at %s UTC.", when, zone, taken.UTC().Format("15:04"))
	}
	return ""
}
