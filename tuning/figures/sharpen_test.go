package figures

import (
	"testing"

	"detent/tuning"
)

func TestSharpest(t *testing.T) {
	car := knownCar(t)
	at := start(t, car)
	if got, ok := modelOf(t, car).Sharpest(at); ok {
		t.Errorf("nothing is missing, and %+v would help", got)
	}
	for _, c := range []struct {
		forget func(*tuning.Car)
		want   string
	}{
		{func(c *tuning.Car) { c.Ends[tuning.Rear].Spring, c.Mass = 0, 0 }, "spring-rear"},
		{func(c *tuning.Car) { c.Ends[tuning.Front].MotionRatio, c.Mass = 0, 0 }, "ratio-front"},
		{func(c *tuning.Car) { c.Ends[tuning.Front].Track, c.Wheelbase = 0, 0 }, "track-front"},
		{func(c *tuning.Car) { c.CGHeight, c.Ends[tuning.Rear].Track = 0, 0 }, "cg-height"},
	} {
		less := car
		c.forget(&less)
		got, ok := modelOf(t, less).Sharpest(at)
		if !ok || got.Option != c.want || !(got.Moves > 0 && got.Moves < 1) {
			t.Errorf("%+v, %v, want %s", got, ok, c.want)
		}
	}
	less := car
	less.Dampers[tuning.Rear], less.Mass = tuning.Damper{}, 0
	if _, ok := modelOf(t, less).Sharpest(at); ok {
		t.Error("without dampers there is nothing to compare")
	}
}
