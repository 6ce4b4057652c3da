package transfer

import (
	"testing"

	"pgregory.net/rapid"

	"detent/tuning/tuningtest"
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
				tuningtest.Near(t, "mirrored load", float64(swapped[wheel]), float64(a[i].Loads[wheel]), 1e-9)
			}
		}
	})
}
