package transfer

import (
	"math"
	"testing"

	"detent/tuning/ride"
	"detent/tuning/unit"
)

// Bad numbers give an error, never a figure that is none and never a panic.
func TestBadCars(t *testing.T) {
	good := ordinaryCars()[0].build(t)
	nan, inf := math.NaN(), math.Inf(1)
	for name, spoil := range map[string]func(*Car){
		"no mass":          func(c *Car) { c.Sprung = 0 },
		"mass NaN":         func(c *Car) { c.Sprung = unit.Mass(nan) },
		"no roll inertia":  func(c *Car) { c.RollInertia = 0 },
		"pitch inertia":    func(c *Car) { c.PitchInertia = -1 },
		"height":           func(c *Car) { c.Height = unit.Length(inf) },
		"unsprung height":  func(c *Car) { c.UnsprungHeight = unit.Length(nan) },
		"no tyre rate":     func(c *Car) { c.Front.Tyre = 0 },
		"wheel rate":       func(c *Car) { c.Rear.Wheel = unit.Stiffness(-1) },
		"no unsprung":      func(c *Car) { c.Rear.Unsprung = 0 },
		"no track":         func(c *Car) { c.Rear.Track = 0 },
		"no distance":      func(c *Car) { c.Front.Distance = 0 },
		"roll centre":      func(c *Car) { c.Front.RollCentre = unit.Length(nan) },
		"bar":              func(c *Car) { c.Front.Bar = unit.RollRate(nan) },
		"anti":             func(c *Car) { c.Rear.Anti = unit.Share(inf) },
		"no damper":        func(c *Car) { c.Rear.Damper = ride.Damper{} },
		"falls over":       func(c *Car) { c.Overturning, c.Height = true, 30 },
		"wheel of a grain": func(c *Car) { c.Front.Unsprung = 1e-9 },
	} {
		c := good
		spoil(&c)
		if _, err := c.Run(Probes(Entry)[0], RoadTyre, RearDriven); err == nil {
			t.Errorf("%s: tried", name)
		}
		still := Course{{0, 0}}
		if _, err := c.Drive(Manoeuvre{Lateral: still, Longitudinal: still}, []unit.Seconds{1}); err == nil {
			t.Errorf("%s: driven", name)
		}
		if name == "wheel of a grain" { // too light to follow, but it can stand
			continue
		}
		if _, err := c.StaticLoads(); err == nil {
			t.Errorf("%s: weighed", name)
		}
		if _, err := c.Steady(1, 1); err == nil {
			t.Errorf("%s: steady", name)
		}
	}
}

func TestBadManoeuvres(t *testing.T) {
	c := ordinaryCars()[0].build(t)
	nan := math.NaN()
	still, at := Course{{0, 0}}, []unit.Seconds{0, 1}
	for name, bad := range map[string]struct {
		m  Manoeuvre
		at []unit.Seconds
	}{
		"no lateral course":      {Manoeuvre{Longitudinal: still}, at},
		"no longitudinal course": {Manoeuvre{Lateral: still}, at},
		"no times":               {Manoeuvre{Lateral: still, Longitudinal: still}, nil},
		"times fall":             {Manoeuvre{Lateral: still, Longitudinal: still}, []unit.Seconds{1, 0}},
		"time NaN":               {Manoeuvre{Lateral: still, Longitudinal: still}, []unit.Seconds{unit.Seconds(nan)}},
		"time before zero":       {Manoeuvre{Lateral: still, Longitudinal: still}, []unit.Seconds{-1}},
		"course goes back":       {Manoeuvre{Lateral: Course{{1, 0}, {0, 0}}, Longitudinal: still}, at},
		"acceleration NaN":       {Manoeuvre{Lateral: Course{{0, unit.Acceleration(nan)}}, Longitudinal: still}, at},
		"acceleration vast":      {Manoeuvre{Lateral: still, Longitudinal: Course{{0, 1e9}}}, at},
	} {
		if _, err := c.Drive(bad.m, bad.at); err == nil {
			t.Errorf("%s: driven", name)
		}
	}
	for _, grip := range []Grip{0, -1, Grip(nan), Grip(math.Inf(1))} {
		if _, err := c.Run(Probes(Exit)[0], grip, FrontDriven); err == nil {
			t.Errorf("grip %g: tried", float64(grip))
		}
	}
	for _, p := range []Probe{{Phase: 7, Rise: 0.3}, {Phase: -1, Rise: 0.3}, {Phase: Exit}, {Phase: Exit, Rise: unit.Seconds(nan)}} {
		if _, err := c.Run(p, RoadTyre, FrontDriven); err == nil {
			t.Errorf("%+v was tried", p)
		}
	}
	if _, err := c.Steady(unit.Acceleration(nan), 0); err == nil {
		t.Error("steady at no acceleration")
	}
}

// A course may jump: two points at one time.
func TestCourseJumps(t *testing.T) {
	c := Course{{0, 1}, {0.5, 2}, {0.5, 4}, {1, 4}}
	for _, want := range []struct{ at, value, slope float64 }{
		{0, 1, 2}, {0.25, 1.5, 2}, {0.5, 4, 0}, {2, 4, 0},
	} {
		l := c.lineFrom(want.at)
		if got := l.at(want.at); got != want.value || l.slope != want.slope {
			t.Errorf("at %g: %g rising %g, want %g rising %g", want.at, got, l.slope, want.value, want.slope)
		}
	}
	if early := (Course{{1, 3}}).lineFrom(0); early.at(0) != 3 || early.until != 1 {
		t.Errorf("before the first point: %+v", early)
	}
}
