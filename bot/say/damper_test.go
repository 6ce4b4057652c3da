package say_test

import (
	"testing"

	"detent/bot/say"
	"detent/tuning"
)

func TestDampers(t *testing.T) {
	car := twin(30)
	car.Curves[tuning.Front] = &tuning.ForceTable{Clicks: []int{0, 15, 30}}
	one := tuning.Damper{Ways: 1, Count: tuning.FromSoft, Moves: tuning.MovesBoth}
	one.Range[tuning.Rebound] = 7
	car.Dampers[tuning.Rear] = one
	want := "Front: two-way, 30 clicks each, counted from hard, force table of 3 clicks.\n" +
		"Rear: one-way, 7 clicks counted from soft, adjusts bump and rebound together."
	if got := say.Dampers(car); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := say.Dampers(tuning.Car{}); got != "Front: dampers not known yet.\nRear: dampers not known yet." {
		t.Errorf("%q", got)
	}
}
