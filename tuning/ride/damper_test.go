package ride

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

func TestForce(t *testing.T) {
	d := kneed(t, 1000, 400, 2000, 800)
	for _, c := range []struct {
		v    unit.Speed
		want unit.Force
	}{{0, 0}, {0.02, 20}, {0.05, 50}, {0.15, 90}, {-0.02, -40}, {-0.05, -100}, {-0.15, -180}} {
		if got := d.Force(c.v); math.Abs(float64(got-c.want)) > 1e-12 {
			t.Errorf("at %g m/s %g N, want %g", float64(c.v), float64(got), float64(c.want))
		}
	}
	for v, want := range map[unit.Speed]int{0: 0, 0.04: 0, 0.05: 1, -0.01: -1, -0.06: -2} {
		if got := d.Regime(v); got != want {
			t.Errorf("regime at %g m/s is %d, want %d", float64(v), got, want)
		}
	}
}

// anyDamper draws a damper of two slopes.
func anyDamper(r *rapid.T) Damper {
	side := func(name string) Knee {
		return Knee{
			Low:  unit.Damping(rapid.Float64Range(100, 9000).Draw(r, name+" low")),
			High: unit.Damping(rapid.Float64Range(0, 9000).Draw(r, name+" high")),
			At:   unit.Speed(rapid.Float64Range(0.01, 0.2).Draw(r, name+" knee")),
		}
	}
	d, err := Kneed(side("bump"), side("rebound"))
	if err != nil {
		r.Fatal(err)
	}
	return d
}

// A damper only takes energy: its force never pushes the way it moves.
func TestDamperOnlyTakes(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		d := anyDamper(r)
		v := unit.Speed(rapid.Float64Range(-3, 3).Draw(r, "v"))
		if power := float64(d.Force(v)) * float64(v); power < 0 {
			t.Fatalf("at %g m/s it gives %g W", float64(v), -power)
		}
	})
}

// At the wheel: force MR times that of the damper moving MR times as fast.
func TestAtWheel(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		d := anyDamper(r)
		motion := unit.Ratio(rapid.Float64Range(0.3, 1.6).Draw(r, "MR"))
		v := rapid.Float64Range(-2, 2).Draw(r, "v")
		atWheel, err := d.AtWheel(motion)
		if err != nil {
			t.Fatal(err)
		}
		got := float64(atWheel.Force(unit.Speed(v)))
		want := float64(motion) * float64(d.Force(unit.Speed(v*float64(motion))))
		if math.Abs(got-want) > 1e-9*(1+math.Abs(want)) {
			t.Fatalf("%g N at the wheel, want %g", got, want)
		}
		tuningtest.Near(t, "steepest slope", float64(atWheel.Steepest()), float64(d.Steepest()*unit.Damping(motion*motion)), 1e-12)
	})
}

func TestNominal(t *testing.T) {
	c, motion := ordinaryCorner(), unit.Ratio(0.8)
	for _, want := range []struct {
		click int
		mean  float64
	}{{0, 0.25}, {10, 0.625}, {20, 1}} {
		d := must[Damper](t)(c.Nominal(motion, want.click, 20))
		ratios := must[Ratios](t)(c.Ratios(d, NominalKnee/unit.Speed(motion)))
		tuningtest.Near(t, "mean", float64(ratios.Low.Mean), want.mean, 1e-12)
		tuningtest.Near(t, "rebound over bump", float64(ratios.Low.Rebound/ratios.Low.Bump), 2, 1e-12)
		tuningtest.Near(t, "fast over slow", float64(ratios.High.Mean/ratios.Low.Mean), 0.45, 1e-12)
	}
	for _, bad := range []struct{ click, clicks int }{{-1, 20}, {21, 20}, {0, 0}} {
		if _, err := c.Nominal(1, bad.click, bad.clicks); err == nil {
			t.Errorf("click %d of %d is a damper", bad.click, bad.clicks)
		}
	}
	if _, err := c.Nominal(unit.Ratio(math.NaN()), 0, 20); err == nil {
		t.Error("a motion ratio of NaN is a damper")
	}
}

func TestClicksFor(t *testing.T) {
	clicks, err := ClicksFor(0.25, 1, 30)
	if err != nil {
		t.Fatal(err)
	}
	tuningtest.Near(t, "clicks for 0.05", clicks, 2, 1e-12)
	for _, bad := range []struct {
		soft, hard unit.Ratio
		clicks     int
	}{{0.5, 0.5, 30}, {0.2, 0.9, 0}, {unit.Ratio(math.NaN()), 1, 30}, {0, unit.Ratio(math.Inf(1)), 30}} {
		if got, err := ClicksFor(bad.soft, bad.hard, bad.clicks); err == nil {
			t.Errorf("%+v: %g clicks", bad, got)
		}
	}
}

func TestBadDampers(t *testing.T) {
	good, nan := Knee{1000, 500, 0.05}, math.NaN()
	for name, bad := range map[string]Knee{
		"no slope": {0, 500, 0.05}, "slope NaN": {unit.Damping(nan), 500, 0.05},
		"negative": {1000, -1, 0.05}, "no knee": {1000, 500, 0}, "knee Inf": {1000, 500, unit.Speed(math.Inf(1))},
	} {
		if _, err := Kneed(bad, good); err == nil {
			t.Errorf("%s in bump is a damper", name)
		}
		if _, err := Kneed(good, bad); err == nil {
			t.Errorf("%s in rebound is a damper", name)
		}
	}
	d := must[Damper](t)(Kneed(good, good))
	for _, bad := range []unit.Ratio{0, -1, unit.Ratio(nan)} {
		if _, err := d.AtWheel(bad); err == nil {
			t.Errorf("motion ratio %g is a damper", float64(bad))
		}
		if _, err := d.Scaled(bad, 1); err == nil {
			t.Errorf("bump factor %g is a damper", float64(bad))
		}
	}
	if _, err := ordinaryCorner().Ratios(d, unit.Speed(nan)); err == nil {
		t.Error("a split speed of NaN has ratios")
	}
	if _, err := (Damper{}).AtWheel(1); err == nil {
		t.Error("no damper is one at the wheel")
	}
}
