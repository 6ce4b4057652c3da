package say

import (
	"fmt"
	"time"
)

// Clock says a time of day: "21:30".
func Clock(d time.Duration) string {
	return fmt.Sprintf("%02d:%02d", d/time.Hour, d%time.Hour/time.Minute)
}
