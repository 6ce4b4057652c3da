package transfer

import (
	"testing"
)

func TestProbes(t *testing.T) {
	for phase, want := range map[Phase]int{Entry: 6, Exit: 6, Braking: 3} {
		probes := Probes(phase)
		seen := map[Probe]bool{}
		for _, p := range probes {
			seen[p] = true
		}
		if len(probes) != want || len(seen) != want || probes[0].Rise != 0.3 {
			t.Errorf("%v: %+v", phase, probes)
		}
	}
}
