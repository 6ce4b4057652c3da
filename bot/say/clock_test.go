package say_test

import (
	"testing"
	"time"

	"detent/bot/say"
)

func TestTimes(t *testing.T) {
	for _, c := range []struct {
		of                 time.Duration
		clock, length, lap string
	}{
		{0, "00:00", "0 h", "0:00.000"},
		{90 * time.Minute, "01:30", "1 h 30 min", "90:00.000"},
		{45 * time.Minute, "00:45", "45 min", "45:00.000"},
		{102600 * time.Millisecond, "00:01", "1 min", "1:42.600"},
	} {
		if say.Clock(c.of) != c.clock || say.Length(c.of) != c.length || say.Lap(c.of) != c.lap {
			t.Errorf("%v: %q, %q, %q", c.of, say.Clock(c.of), say.Length(c.of), say.Lap(c.of))
		}
	}
}
