package say_test

import (
	"testing"
	"time"

	"detent/bot/say"
)

func TestClock(t *testing.T) {
	for of, want := range map[time.Duration]string{0: "00:00", 90 * time.Minute: "01:30", 21*time.Hour + 45*time.Minute: "21:45"} {
		if got := say.Clock(of); got != want {
			t.Errorf("%v is said as %q, want %q", of, got, want)
		}
	}
}
