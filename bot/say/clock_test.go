package say_test

import (
	"testing"
	"time"

	"detent/bot/say"
	"detent/tuning/calendar"
)

func TestClock(t *testing.T) {
	for of, want := range map[time.Duration]string{0: "00:00", 90 * time.Minute: "01:30", 21*time.Hour + 45*time.Minute: "21:45"} {
		if got := say.Clock(of); got != want {
			t.Errorf("%v is said as %q, want %q", of, got, want)
		}
	}
}

func TestOdd(t *testing.T) {
	zone, err := calendar.Zone("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	for wall, want := range map[string]string{
		"2027-03-28 02:00": "02:00 on 28 March 2027 does not exist in Europe/Berlin, the clocks jump over it: I take it as 03:00.",
		"2027-10-31 02:00": "02:00 on 31 October 2027 comes twice in Europe/Berlin, the clocks go back over it: I take the first, at 00:00 UTC.",
		"2027-10-31 03:00": "",
	} {
		typed, err := time.Parse("2006-01-02 15:04", wall)
		if err != nil {
			t.Fatal(err)
		}
		at, odd := calendar.Settle(typed, zone)
		if got := say.Odd(odd, typed, at, zone); got != want {
			t.Errorf("%s is said as %q, want %q", wall, got, want)
		}
	}
}
