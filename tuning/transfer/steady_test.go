package transfer

import (
	"testing"

	"pgregory.net/rapid"

	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

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
		tuningtest.Near(t, "sum of the loads", sum, float64(c.Mass())*gravity, 1e-12)
	})
}

// The steady corner does not feel the dampers at all.
func TestSteadyCornerIgnoresDampers(t *testing.T) {
	for _, o := range ordinaryCars() {
		before := o.build(t)
		after := stiffer(t, before, Front, 1.4, 1.4)
		a, err := before.Steady(7, 0)
		if err != nil {
			t.Fatal(err)
		}
		b, err := after.Steady(7, 0)
		if err != nil {
			t.Fatal(err)
		}
		if a != b {
			t.Errorf("%s: %v became %v", o.name, a, b)
		}
	}
}

func TestWorkedCarsAtRestAndSteady(t *testing.T) {
	for name, w := range workedCars(t) {
		t.Run(name, func(t *testing.T) {
			c := w.build(t)
			tuningtest.Near(t, "mass", float64(c.Mass()), w.Derived.M, 1e-12)
			tuningtest.Near(t, "roll axis", c.rollAxis(), w.Derived.HRollAxis, 1e-12)
			tuningtest.Near(t, "front roll stiffness", c.Front.springRoll(), w.Derived.AxleRoll[Front], 1e-12)
			tuningtest.Near(t, "rear roll stiffness", c.Rear.springRoll(), w.Derived.AxleRoll[Rear], 1e-12)
			index := float64(c.PitchInertia) / float64(c.Sprung) / float64(c.Front.Distance*c.Rear.Distance)
			tuningtest.Near(t, "pitch index", index, w.Derived.PitchIndex, 1e-12)
			loads, err := c.StaticLoads()
			if err != nil {
				t.Fatal(err)
			}
			for i, load := range loads {
				tuningtest.Near(t, "static load", float64(load), w.Derived.Static[i], 1e-12)
			}
			points := w.Longitudinal.Ax
			tuningtest.Near(t, "longitudinal load", c.pitchLoad()*points[len(points)-1][1], w.Checks.LongitudinalN, 1e-12)

			moved(t, c, w.Lateral.Ay, w.Lateral.Roll, w.Lateral.Front, w.Lateral.Rear)
			c.Front.Tyre, c.Rear.Tyre = 1e12, 1e12
			moved(t, c, w.Lateral.Ay, w.Lateral.Rigid.Roll, w.Lateral.Rigid.Front, w.Lateral.Rigid.Rear)
		})
	}
}
