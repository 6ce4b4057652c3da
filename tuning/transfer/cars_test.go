package transfer

import (
	"math"
	"testing"

	"detent/tuning/ride"
	"detent/tuning/unit"
)

// ordinary is a car as one would describe it; all of them are invented.
type ordinary struct {
	name   string
	driven Driven
	grip   Grip

	mass        float64 // whole, kg
	front       float64 // part of the body's weight on the front axle
	wheelbase   float64
	trackF      float64
	trackR      float64
	height      float64 // of the body's centre of gravity
	centreF     float64 // roll centres
	centreR     float64
	unsprungF   float64 // one wheel
	unsprungR   float64
	hertzF      float64 // on the wheel rate
	hertzR      float64
	tyre        float64
	barF        float64
	barR        float64
	ratio       float64 // mean damping ratio, low speed
	antiF       float64
	antiR       float64
	overturning bool
}

// ordinaryCars are of every layout, from a road hatchback to a single-seater.
func ordinaryCars() []ordinary {
	return []ordinary{
		{"small front-driven hatchback", FrontDriven, RoadTyre, 1080, 0.61, 2.48, 1.46, 1.45, 0.55, 0.06, 0.12, 36, 32, 1.35, 1.55, 190e3, 9e3, 12e3, 0.45, 0.04, 0.15, false},
		{"quick front-driven hatchback", FrontDriven, SemiSlick, 1240, 0.62, 2.60, 1.54, 1.52, 0.52, 0.05, 0.14, 40, 36, 1.9, 2.3, 220e3, 16e3, 26e3, 0.6, 0.03, 0.1, false},
		{"front-driven estate", FrontDriven, RoadTyre, 1480, 0.58, 2.75, 1.56, 1.55, 0.57, 0.07, 0.13, 44, 40, 1.25, 1.4, 215e3, 14e3, 11e3, 0.4, 0.05, 0.12, true},
		{"rear-driven saloon", RearDriven, RoadTyre, 1450, 0.52, 2.72, 1.50, 1.51, 0.54, 0.07, 0.12, 42, 44, 1.3, 1.45, 220e3, 17e3, 7e3, 0.45, 0.06, 0.25, false},
		{"rear-driven coupé for track days", RearDriven, SemiSlick, 1320, 0.51, 2.55, 1.52, 1.53, 0.49, 0.05, 0.10, 39, 42, 2.0, 2.2, 230e3, 24e3, 8e3, 0.65, 0.04, 0.2, false},
		{"rear-driven roadster", RearDriven, SemiSlick, 1010, 0.51, 2.30, 1.42, 1.43, 0.47, 0.04, 0.08, 31, 33, 1.8, 1.85, 200e3, 12e3, 5e3, 0.55, 0.05, 0.2, false},
		{"light kit car", RearDriven, Slick, 590, 0.49, 2.35, 1.40, 1.42, 0.38, 0.03, 0.06, 24, 26, 2.3, 2.5, 190e3, 6e3, 2e3, 0.6, 0, 0.1, false},
		{"mid-engined sports car", RearDriven, SemiSlick, 1260, 0.43, 2.47, 1.51, 1.54, 0.46, 0.03, 0.06, 37, 43, 1.9, 2.1, 230e3, 20e3, 14e3, 0.6, 0.05, 0.2, false},
		{"rear-engined sports car", RearDriven, RoadTyre, 1380, 0.39, 2.40, 1.48, 1.52, 0.48, 0.05, 0.09, 37, 45, 1.6, 1.9, 235e3, 18e3, 12e3, 0.55, 0.08, 0.2, false},
		{"four-wheel-drive saloon", AllDriven, RoadTyre, 1560, 0.57, 2.67, 1.54, 1.54, 0.55, 0.06, 0.11, 46, 44, 1.4, 1.6, 230e3, 18e3, 15e3, 0.5, 0.05, 0.2, true},
		{"four-wheel-drive rally hatchback", AllDriven, SemiSlick, 1290, 0.58, 2.56, 1.55, 1.55, 0.52, 0.06, 0.11, 43, 41, 1.8, 2.0, 215e3, 14e3, 13e3, 0.6, 0.04, 0.15, false},
		{"club single-seater", RearDriven, Slick, 520, 0.44, 2.50, 1.46, 1.44, 0.31, 0.02, 0.04, 17, 20, 3.6, 3.8, 200e3, 14e3, 6e3, 0.65, 0.1, 0.25, false},
	}
}

// build makes the model's car: inertias of a body of ordinary proportions, and
// the nominal kind of damper.
func (o ordinary) build(t testing.TB) Car {
	t.Helper()
	body := o.mass - 2*(o.unsprungF+o.unsprungR)
	b := o.front * o.wheelbase
	a := o.wheelbase - b
	track := (o.trackF + o.trackR) / 2
	c := Car{
		Sprung:         unit.Mass(body),
		RollInertia:    unit.Inertia(body * math.Pow(0.42*track, 2)),
		PitchInertia:   unit.Inertia(body * a * b * 0.95),
		Height:         unit.Length(o.height),
		UnsprungHeight: 0.3,
		Front: Axle{Distance: unit.Length(a), Track: unit.Length(o.trackF), RollCentre: unit.Length(o.centreF),
			Unsprung: unit.Mass(o.unsprungF), Bar: unit.RollRate(o.barF), Anti: unit.Share(o.antiF)},
		Rear: Axle{Distance: unit.Length(b), Track: unit.Length(o.trackR), RollCentre: unit.Length(o.centreR),
			Unsprung: unit.Mass(o.unsprungR), Bar: unit.RollRate(o.barR), Anti: unit.Share(o.antiR)},
		Overturning: o.overturning,
	}
	for i, axle := range []*Axle{&c.Front, &c.Rear} {
		carried := c.carried(i) / 2
		omega := 2 * math.Pi * []float64{o.hertzF, o.hertzR}[i]
		axle.Wheel = unit.Stiffness(carried * omega * omega)
		axle.Tyre = unit.Stiffness(o.tyre)
		axle.Damper = twoSlopes(t, o.ratio*2*carried*omega)
	}
	if err := c.Check(); err != nil {
		t.Fatalf("%s: %v", o.name, err)
	}
	return c
}

// twoSlopes is a damper of the given mean slope, rebound twice bump, less than
// half of it beyond 0.08 m/s.
func twoSlopes(t testing.TB, mean float64) ride.Damper {
	t.Helper()
	side := func(slope float64) ride.Knee {
		return ride.Knee{Low: unit.Damping(slope), High: unit.Damping(0.45 * slope), At: 0.08}
	}
	d, err := ride.Kneed(side(mean*2/3), side(mean*4/3))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// stiffer returns the car with the damper of one axle scaled.
func stiffer(t testing.TB, c Car, axle int, bump, rebound unit.Ratio) Car {
	t.Helper()
	a := []*Axle{&c.Front, &c.Rear}[axle]
	d, err := a.Damper.Scaled(bump, rebound)
	if err != nil {
		t.Fatal(err)
	}
	a.Damper = d
	return c
}

// runs takes a car through a probe before and after a change.
func runs(t testing.TB, before, after Car, p Probe, o ordinary) (first, second Run) {
	t.Helper()
	first, err := before.Run(p, o.grip, o.driven)
	if err != nil {
		t.Fatal(err)
	}
	if second, err = after.Run(p, o.grip, o.driven); err != nil {
		t.Fatal(err)
	}
	return first, second
}
