package say_test

import (
	"testing"
	"time"

	"detent/bot/say"
	"detent/tuning"
)

func TestFeels(t *testing.T) {
	wide, none, round, hops := -2, 0, 1, false
	for want, f := range map[string]tuning.Feel{
		"": {Grip: 7},
		": entry pushes wide 2, mid neutral, exit comes round 1, no hop, better than before, lap 1:42.600": {
			Grip: 7, Entry: &wide, Mid: &none, Exit: &round, Hop: &hops, Better: tuning.BetterYes, Lap: 102600 * time.Millisecond},
		": worse than before":  {Better: tuning.BetterNo},
		": the same as before": {Better: tuning.BetterSame},
		": front 2.1 bar, rear 2 bar hot, damp, air 18 °C, track 24.5 °C": {
			Hot: tuning.Pressures{2.1e5, 2.1e5, 2e5, 2e5}, Conditions: tuning.ItWasDamp, Air: 291.15, Track: 297.65},
	} {
		if got := say.Feel(f, false); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
