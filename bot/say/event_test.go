package say_test

import (
	"testing"
	"time"

	"detent/bot/say"
	"detent/tuning"
)

func TestEvents(t *testing.T) {
	starts := time.Date(2026, 5, 16, 9, 0, 0, 0, time.UTC)
	day := tuning.Event{Name: "Spring day", Starts: starts, Ends: starts.Add(8 * time.Hour)}
	full := day
	full.Place, full.Surface, full.Weather, full.Limit, full.GuideAt = "Windy Hill", tuning.Bumpy, tuning.Wet, 1, starts.AddDate(0, 0, -1)
	long := day
	long.Ends = starts.AddDate(0, 0, 1)
	for want, e := range map[string]tuning.Event{
		"Sat 16 May 2026, 09:00 to 17:00.": day,
		"Sat 16 May 2026, 09:00 to 17:00, Windy Hill, bumpy, wet, 1 place.\nThe guide comes on Fri 15 May 2026, 09:00.": full,
		"Sat 16 May 2026, 09:00 to Sun 17 May 2026, 09:00.":                                                             long,
	} {
		if got := say.Event(e, time.UTC); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	for want, c := range map[string]struct{ in, limit int }{
		"No car is in yet.": {0, 0}, "1 car is in.": {1, 0}, "2 cars are in, 1 place is left.": {2, 3}, "3 cars are in, 0 places are left.": {3, 3},
	} {
		if got := say.Places(tuning.Event{Limit: c.limit}, c.in); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
