package transfer

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"detent/tuning/unit"
)

func TestHalfTheStepChangesNothing(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		c, _ := anyCar(t, r)
		m := anyManoeuvre(r)
		at := []unit.Seconds{0.1, 0.25, 0.4, 0.6, 0.8, 1.1, 1.5}
		whole, err := c.drive(m, at, longStep)
		if err != nil {
			t.Fatal(err)
		}
		half, err := c.drive(m, at, longStep/2)
		if err != nil {
			t.Fatal(err)
		}
		for i := range whole {
			for wheel, load := range whole[i].Loads {
				if off := math.Abs(float64(load - half[i].Loads[wheel])); off > 1e-3 {
					t.Errorf("wheel %d at %v s is off by %g N", wheel, at[i], off)
				}
			}
		}
	})
}

// Nothing feeds a car that is left alone: from any state its energy only falls.
func TestDampersOnlyTakeEnergy(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		c, _ := anyCar(t, r)
		c.Overturning = false
		var x state
		for i := range x {
			most := 0.03
			if i >= speed {
				most = 0.6
			}
			x[i] = rapid.Float64Range(-most, most).Draw(r, "state")
		}
		chassis, still := newChassis(c), line{}
		last := chassis.energy(&x)
		for i := range 200 {
			at := float64(i) * 5e-3
			chassis.follow(&x, &still, &still, at, at+5e-3, longStep)
			now := chassis.energy(&x)
			if now > last*(1+1e-9) {
				t.Fatalf("the energy rises from %g to %g J", last, now)
			}
			last = now
		}
	})
}

// energy is what springs, bars, tyres and moving masses hold.
func (c *chassis) energy(x *state) float64 {
	half := func(k, v float64) float64 { return k * v * v / 2 }
	e := half(c.mass, x[speed+heave]) + half(c.pitchInertia, x[speed+pitch]) + half(c.rollInertia, x[speed+roll])
	for i := range c.axle {
		a := &c.axle[i]
		l, r := a.travel(x, 0, 2*i)
		e += half(a.spring, l) + half(a.spring, r) + half(a.bar, l-r)
		for w := wheel + 2*i; w < wheel+2*i+2; w++ {
			e += half(a.tyre, x[w]) + half(a.mass, x[speed+w])
		}
	}
	return e
}

// A car that stands still stays there.
func TestRestStaysAtRest(t *testing.T) {
	c := ordinaryCars()[3].build(t)
	still := Course{{0, 0}}
	static, err := c.StaticLoads()
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range drive(t, c, Manoeuvre{Lateral: still, Longitudinal: still}) {
		if m.Loads != static || m.Roll != 0 || m.Pitch != 0 || m.Heave != 0 {
			t.Errorf("at %v s: %+v", m.At, m)
		}
		if _, moved := m.FrontShare(); moved {
			t.Errorf("at %v s load has moved", m.At)
		}
	}
}
