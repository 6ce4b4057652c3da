package transfer

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"detent/tuning/unit"
)

// anyCar draws a car near one of the ordinary ones.
func anyCar(t *testing.T, r *rapid.T) (Car, ordinary) {
	o := rapid.SampledFrom(ordinaryCars()).Draw(r, "car")
	vary := func(name string) float64 { return rapid.Float64Range(0.8, 1.25).Draw(r, name) }
	o.hertzF *= vary("front spring")
	o.hertzR *= vary("rear spring")
	o.ratio *= vary("damping")
	o.tyre *= vary("tyre")
	o.barF *= vary("front bar")
	return o.build(t), o
}

// anyManoeuvre draws some lateral and longitudinal acceleration.
func anyManoeuvre(r *rapid.T) Manoeuvre {
	course := func(name string, most float64) Course {
		value := rapid.Float64Range(-most, most)
		return Course{
			{0, 0},
			{unit.Seconds(rapid.Float64Range(0.05, 0.6).Draw(r, name+" first")), unit.Acceleration(value.Draw(r, name))},
			{unit.Seconds(rapid.Float64Range(0.7, 1.2).Draw(r, name+" second")), unit.Acceleration(value.Draw(r, name))},
		}
	}
	return Manoeuvre{Lateral: course("a_y", 10), Longitudinal: course("a_x", 9)}
}

func drive(t *testing.T, c Car, m Manoeuvre) []Moment {
	t.Helper()
	trace, err := c.Drive(m, []unit.Seconds{0.1, 0.25, 0.4, 0.6, 0.8, 1.1, 1.5})
	if err != nil {
		t.Fatal(err)
	}
	return trace
}

func TestSteadyLoadsCarryTheWeight(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		c, _ := anyCar(t, r)
		ay := unit.Acceleration(rapid.Float64Range(-12, 12).Draw(r, "a_y"))
		ax := unit.Acceleration(rapid.Float64Range(-12, 12).Draw(r, "a_x"))
		steady, err := c.Steady(ay, ax)
		if err != nil {
			t.Fatal(err)
		}
		var sum float64
		for _, load := range steady.Loads {
			sum += float64(load)
		}
		near(t, "sum of the loads", sum, float64(c.Mass())*gravity, 1e-12)
	})
}

// In motion the sum may differ, but only to speed the masses up: over any time
// the loads less the weight give the momentum gained.
func TestLoadsGiveTheMomentum(t *testing.T) {
	c := ordinaryCars()[0].build(t)
	m := c.manoeuvre(Probes(Exit)[0], RoadTyre, FrontDriven)
	chassis, static := newChassis(c), c.staticLoads()
	ay, ax := m.Lateral.lineFrom(0), m.Longitudinal.lineFrom(0)
	x := c.settled(ay.at(0), ax.at(0))
	var impulse float64
	excess := func() float64 {
		var sum float64
		for _, load := range chassis.loads(&x, &static) {
			sum += float64(load)
		}
		return sum - float64(c.Mass())*gravity
	}
	const h = 1e-4
	for i := range 2500 {
		impulse += h / 2 * excess()
		at := float64(i) * h
		chassis.follow(&x, &ay, &ax, at, at+h, h)
		impulse += h / 2 * excess()
	}
	momentum := float64(c.Sprung) * x[speed+heave]
	for i := range 4 {
		momentum += float64(c.axles()[i/2].Unsprung) * x[speed+wheel+i]
	}
	near(t, "impulse", impulse, momentum, 1e-4)
}

func TestLeftMirrorsRight(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		c, _ := anyCar(t, r)
		left := anyManoeuvre(r)
		right := Manoeuvre{Longitudinal: left.Longitudinal}
		for _, p := range left.Lateral {
			right.Lateral = append(right.Lateral, Point{p.At, -p.Value})
		}
		a, b := drive(t, c, left), drive(t, c, right)
		for i := range a {
			swapped := [4]unit.Force{b[i].Loads[FR], b[i].Loads[FL], b[i].Loads[RR], b[i].Loads[RL]}
			for wheel := range swapped {
				near(t, "mirrored load", float64(swapped[wheel]), float64(a[i].Loads[wheel]), 1e-9)
			}
		}
	})
}

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
