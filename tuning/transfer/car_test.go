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
