package ride

import (
	"math"
	"testing"

	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

// NCERT, Physics, class XI part II, exercise 14.21, read with its solution at
// neetprep.com/ncert-question/227460: 750 kg on each wheel, springs of 5e4 N/m, a
// period of 0.7691 s (recomputed 0.7695), half the swing lost in each period,
// damping 1351.58 kg/s.
func TestTextbookSpringAndDamping(t *testing.T) {
	c := Corner{Sprung: 750, Unsprung: 1e-3, Wheel: 5e4, Tyre: 1e9}
	f, err := c.Frequencies()
	if err != nil {
		t.Fatal(err)
	}
	tuningtest.Near(t, "period", 1/float64(f.Wheel), 0.7691, 6e-4)
	simple, err := c.SimpleRatios(1351.58)
	if err != nil {
		t.Fatal(err)
	}
	// A swing halves in a period at ζ = ln 2/2π, to first order in ζ.
	tuningtest.Near(t, "ratio", float64(simple.Body), math.Ln2/(2*math.Pi), 1e-3)
	modes, err := c.Modes(1351.58)
	if err != nil {
		t.Fatal(err)
	}
	// Exactly, one period leaves exp(−2πζ/√(1−ζ²)).
	zeta := float64(modes[0].Ratio)
	tuningtest.Near(t, "part left", math.Exp(-2*math.Pi*zeta/math.Sqrt(1-zeta*zeta)), 0.5, 6e-3)
}

// Handbook relations, from memory.
func TestHandbookRelations(t *testing.T) {
	// A spring that sinks 248.5 mm under its mass swings once a second: √(g/δ)/2π.
	c := Corner{Sprung: 300, Unsprung: 40, Wheel: unit.Stiffness(300 * float64(unit.Gravity) / 0.2485), Tyre: 200000}
	tuningtest.Near(t, "frequency from deflection", float64(must[Frequencies](t)(c.Frequencies()).Wheel), 1, 1e-3)
	c.Wheel = 20000
	all := must[Frequencies](t)(c.Frequencies())
	tuningtest.Near(t, "critical damping", float64(must[unit.Damping](t)(c.Critical())), 2*math.Sqrt(20000*300), 1e-14)
	tuningtest.Near(t, "wheel rate", float64(must[unit.Stiffness](t)(WheelRate(50000, 0.7))), 24500, 1e-14)
	// The exact pair lies outside the two one-mass frequencies.
	if !(all.Low < all.Ride && all.High > all.Hop) {
		t.Errorf("exact %v and %v Hz, one mass %v and %v Hz", all.Low, all.High, all.Ride, all.Hop)
	}
}

// Bad numbers give an error, never a figure that is none and never a panic.
func TestBadCorners(t *testing.T) {
	good, nan := ordinaryCorner(), math.NaN()
	road := Road{Spectrum: 64e-6, Speed: 20}
	for name, spoil := range map[string]func(*Corner){
		"no sprung mass":   func(c *Corner) { c.Sprung = 0 },
		"no unsprung mass": func(c *Corner) { c.Unsprung = 0 },
		"mass NaN":         func(c *Corner) { c.Sprung = unit.Mass(nan) },
		"no wheel rate":    func(c *Corner) { c.Wheel = 0 },
		"negative rate":    func(c *Corner) { c.Wheel = -1 },
		"no tyre rate":     func(c *Corner) { c.Tyre = 0 },
		"tyre rate Inf":    func(c *Corner) { c.Tyre = unit.Stiffness(math.Inf(1)) },
		"tyre rate vast":   func(c *Corner) { c.Tyre = 1e300 },
	} {
		c := good
		spoil(&c)
		for what, err := range answers(c, 1000, road, linear(t, 1000)) {
			if err == nil {
				t.Errorf("%s: %s has an answer", name, what)
			}
		}
	}
	for name, bad := range map[string]struct {
		damping unit.Damping
		road    Road
	}{
		"no damping":  {0, road},
		"damping NaN": {unit.Damping(nan), road},
	} {
		for _, what := range []string{"simple ratios", "modes", "road step", "force step", "response", "band"} {
			if answers(good, bad.damping, bad.road, Damper{})[what] == nil {
				t.Errorf("%s: %s has an answer", name, what)
			}
		}
	}
	for name, bad := range map[string]Road{
		"no spectrum": {0, 20}, "no speed": {64e-6, 0}, "speed NaN": {64e-6, unit.Speed(nan)},
	} {
		for _, what := range []string{"response", "band", "equivalent"} {
			if answers(good, 1000, bad, linear(t, 1000))[what] == nil {
				t.Errorf("%s: %s has an answer", name, what)
			}
		}
	}
	for _, bad := range []float64{0, -1, nan, math.Inf(1)} {
		if _, err := WheelRate(20000, unit.Ratio(bad)); err == nil {
			t.Errorf("a motion ratio of %g has a wheel rate", bad)
		}
	}
}

// answers asks everything there is to ask about a corner.
func answers(c Corner, damping unit.Damping, road Road, d Damper) map[string]error {
	errs := map[string]error{}
	_, errs["frequencies"] = c.Frequencies()
	_, errs["critical"] = c.Critical()
	_, errs["simple ratios"] = c.SimpleRatios(damping)
	_, errs["modes"] = c.Modes(damping)
	_, errs["road step"] = c.RoadStep(damping)
	_, errs["force step"] = c.ForceStep(damping)
	_, errs["response"] = c.Response(damping, road)
	_, errs["band"] = c.BandTyre(damping, road)
	_, errs["optimum"] = c.Optimum()
	_, errs["equivalent"] = c.Equivalent(d, road)
	_, errs["ratios"] = c.Ratios(d, 0.06)
	_, errs["nominal"] = c.Nominal(1, 5, 10)
	_, errs["grip"] = c.Grip(d, Smooth)
	return errs
}
