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

func TestDampersShortly(t *testing.T) {
	alike, apart := twin(30), twin(30)
	apart.Dampers[tuning.Rear] = tuning.Damper{Ways: 3, Count: tuning.FromSoft}
	apart.Dampers[tuning.Rear].Range = [tuning.Adjusters]int{tuning.LowBump: 24, tuning.HighBump: 16, tuning.Rebound: 30}
	half := twin(30)
	half.Dampers[tuning.Rear] = tuning.Damper{}
	for _, c := range []struct {
		car         tuning.Car
		kind, short string
	}{
		{alike, "two-way", "two-way, 30 clicks from hard"},
		{apart, "two-way front with three-way rear", "front two-way, 30 clicks from hard; rear three-way, 24/16/30 clicks from soft"},
		{half, "not known", "front two-way, 30 clicks from hard; rear not known"},
		{tuning.Car{}, "not known", "dampers not known"},
	} {
		if kind, short := say.DamperKind(c.car), say.DampersShortly(c.car); kind != c.kind || short != c.short {
			t.Errorf("%q, %q; want %q, %q", kind, short, c.kind, c.short)
		}
	}
}
