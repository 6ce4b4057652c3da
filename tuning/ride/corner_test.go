package ride

import (
	"math"
	"testing"

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
	near(t, "period", 1/float64(f.Wheel), 0.7691, 6e-4)
	simple, err := c.SimpleRatios(1351.58)
	if err != nil {
		t.Fatal(err)
	}
	// A swing halves in a period at ζ = ln 2/2π, to first order in ζ.
	near(t, "ratio", float64(simple.Body), math.Ln2/(2*math.Pi), 1e-3)
	modes, err := c.Modes(1351.58)
	if err != nil {
		t.Fatal(err)
	}
	// Exactly, one period leaves exp(−2πζ/√(1−ζ²)).
	zeta := float64(modes[0].Ratio)
	near(t, "part left", math.Exp(-2*math.Pi*zeta/math.Sqrt(1-zeta*zeta)), 0.5, 6e-3)
}

// Handbook relations, from memory.
func TestHandbookRelations(t *testing.T) {
	// A spring that sinks 248.5 mm swings once a second: √(g/δ)/2π.
	f := must[unit.Frequency](t)(FromDeflection(0.2485))
	near(t, "frequency from deflection", float64(f), 1, 1e-3)
	// It is the frequency of the mass that sinks it so far.
	c := Corner{Sprung: 300, Unsprung: 40, Wheel: 20000, Tyre: 200000}
	f = must[unit.Frequency](t)(FromDeflection(unit.Length(300 * float64(unit.Gravity) / 20000)))
	all := must[Frequencies](t)(c.Frequencies())
	near(t, "the same from the rate", float64(f), float64(all.Wheel), 1e-14)
	near(t, "critical damping", float64(must[unit.Damping](t)(c.Critical())), 2*math.Sqrt(20000*300), 1e-14)
	near(t, "wheel rate", float64(must[unit.Stiffness](t)(WheelRate(50000, 0.7))), 24500, 1e-14)
	// The exact pair lies outside the two one-mass frequencies.
	if !(all.Low < all.Ride && all.High > all.Hop) {
		t.Errorf("exact %v and %v Hz, one mass %v and %v Hz", all.Low, all.High, all.Ride, all.Hop)
	}
}

// A heavily damped corner: the wheel has two real roots, and a ratio taken for
// one mass says nothing about them.
func TestModesOfStiffDamper(t *testing.T) {
	modes := must[[]Mode](t)(stiffCorner().Modes(5800))
	if len(modes) != 3 || modes[1].Ratio != 1 || modes[2].Ratio != 1 || modes[0].Ratio >= 1 {
		t.Errorf("modes %v, want one pair and two real roots", modes)
	}
}

// The product of the eigenvalues is the determinant of the system.
func TestModesProduct(t *testing.T) {
	for _, c := range []Corner{ordinaryCorner(), stiffCorner()} {
		for _, damping := range []unit.Damping{100, 1000, 5000, 20000} {
			product := 1.0
			for _, m := range must[[]Mode](t)(c.Modes(damping)) {
				omega := 2 * math.Pi * float64(m.Frequency)
				product *= omega
				if m.Ratio < 1 {
					product *= omega
				}
			}
			ms, mu, kw, kt := c.numbers()
			near(t, "product of the eigenvalues", product, kw*kt/(ms*mu), 1e-9)
		}
	}
}

// A quick tyre and a light wheel leave one mass on its spring, for which the
// answer to a force step is known in closed form.
func TestStepOfOneMass(t *testing.T) {
	c := Corner{Sprung: 250, Unsprung: 1, Wheel: 20000, Tyre: 2e8}
	damping := unit.Damping(1500)
	step := must[Step](t)(c.ForceStep(damping))
	omega := math.Sqrt(20000.0 / 250)
	zeta := 1500 / (2 * math.Sqrt(20000*250))
	damped := omega * math.Sqrt(1-zeta*zeta)
	near(t, "overshoot", float64(step.Overshoot), math.Exp(-math.Pi*zeta*omega/damped), 1e-3)
	near(t, "time of the peak", float64(step.Peak), math.Pi/damped, 1e-3)
	// After it has settled the swing stays below 2 %, and not much before.
	envelope := math.Exp(-zeta*omega*float64(step.Settled)) * omega / damped
	if envelope < 0.02 || envelope > 0.08 {
		t.Errorf("settled at %v s, where the swing is still %g", step.Settled, envelope)
	}
}

func TestStepThatNeverSettles(t *testing.T) {
	if step, err := ordinaryCorner().RoadStep(1e-6); err == nil {
		t.Errorf("a step without damping settles: %+v", step)
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
		if _, err := FromDeflection(unit.Length(bad)); err == nil {
			t.Errorf("a deflection of %g has a frequency", bad)
		}
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
