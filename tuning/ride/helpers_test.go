package ride

import (
	"testing"

	"detent/tuning/unit"
)

// ordinaryCorner is the corner of a small road car; invented.
func ordinaryCorner() Corner {
	return Corner{Sprung: 240, Unsprung: 36, Wheel: 16000, Tyre: 160000, Relaxation: 0.35}
}

// stiffCorner is one of a single-seater, whose wheel hardly swings; invented.
func stiffCorner() Corner {
	return Corner{Sprung: 125, Unsprung: 18, Wheel: 120000, Tyre: 210000, Relaxation: 0.3}
}

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

// workedLag is a linear corner whose lag has been worked out elsewhere.
type workedLag struct {
	name      string
	corner    Corner
	damping   unit.Damping
	road      Road
	load, lag float64
}

func workedLags() []workedLag {
	return []workedLag{
		{"L1", Corner{320, 37, 63000, 210000, 0.35}, 3142.9922048901108, Road{16e-6, 25}, 0.00500266302776599, 0.00181892803264375},
		{"L2", Corner{330, 42, 24000, 210000, 0.35}, 2814.2494558940575, Road{64e-6, 40}, 0.0253528603899672, 0.0083472395617648},
		{"L3", Corner{250, 35, 110000, 260000, 0.45}, 6817.257513105986, Road{16e-6, 40}, 0.0240257473040423, 0.00643213121140181},
	}
}
