package ride

import (
	"math"
	"testing"

	"detent/tuning/unit"
)

// near fails unless got is within the part of want.
func near(t *testing.T, what string, got, want, part float64) {
	t.Helper()
	if !(math.Abs(got-want) <= part*math.Abs(want)) {
		t.Errorf("%s = %.12g, want %.12g", what, got, want)
	}
}

// ordinaryCorner is the corner of a small road car; invented.
func ordinaryCorner() Corner { return Corner{Sprung: 240, Unsprung: 36, Wheel: 16000, Tyre: 160000} }

// stiffCorner is one of a single-seater, whose wheel hardly swings; invented.
func stiffCorner() Corner { return Corner{Sprung: 125, Unsprung: 18, Wheel: 120000, Tyre: 210000} }

// linear is a damper of one slope.
func linear(t testing.TB, slope unit.Damping) Damper {
	t.Helper()
	return kneed(t, slope, slope, slope, slope)
}

// kneed is a damper with its knees at 0.05 m/s.
func kneed(t testing.TB, bumpLow, bumpHigh, reboundLow, reboundHigh unit.Damping) Damper {
	t.Helper()
	d, err := Kneed(Knee{bumpLow, bumpHigh, 0.05}, Knee{reboundLow, reboundHigh, 0.05})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// nominals are the nominal dampers of a corner for all positions.
func nominals(t testing.TB, c Corner, clicks int) []Damper {
	t.Helper()
	var dampers []Damper
	for click := range clicks + 1 {
		d, err := c.Nominal(1, click, clicks)
		if err != nil {
			t.Fatal(err)
		}
		dampers = append(dampers, d)
	}
	return dampers
}

// must takes the error out of an answer that cannot fail.
func must[T any](t testing.TB) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}
