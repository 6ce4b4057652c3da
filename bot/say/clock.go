package say

import (
	"fmt"
	"time"
)

// Clock says a time of day: "21:30".
func Clock(d time.Duration) string {
	return fmt.Sprintf("%02d:%02d", d/time.Hour, d%time.Hour/time.Minute)
}

// Length says a length of time: "3 h", "1 h 30 min".
func Length(d time.Duration) string {
	hours, minutes := d/time.Hour, d%time.Hour/time.Minute
	switch {
	case minutes == 0:
		return fmt.Sprintf("%d h", hours)
	case hours == 0:
		return fmt.Sprintf("%d min", minutes)
	}
	return fmt.Sprintf("%d h %d min", hours, minutes)
}

// Lap says a lap time: "1:42.600".
func Lap(d time.Duration) string {
	return fmt.Sprintf("%d:%06.3f", int(d.Minutes()), (d % time.Minute).Seconds())
}
