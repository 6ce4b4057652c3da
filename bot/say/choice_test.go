package say

import (
	"strings"
	"testing"

	"detent/tuning"
)

func TestChoicesInWords(t *testing.T) {
	for _, tt := range [][3]string{
		{"what", "packs-down", "Sinks lower over a run of bumps"}, {"engine", "mid", "In the middle"}, {"use", "road-and-track", "Road and track"},
		{"at", "FL", "Front left"}, {"nothing", "semi-slick", "Semi slick"},
	} {
		if got := Choice(tt[0], tt[1]); got != tt[2] {
			t.Errorf("%s:%s reads %q, want %q", tt[0], tt[1], got, tt[2])
		}
	}
	for _, w := range tuning.What("").Choices() {
		if got := Choice("what", w); got == "" || strings.Contains(got, w) && strings.Contains(w, "-") || len(got) > 80 {
			t.Errorf("%s reads %q", w, got)
		}
	}
}
