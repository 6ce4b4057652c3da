package transfer

import (
	"math"
	"testing"

	"detent/tuning/ride"
	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

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
	tuningtest.Near(t, "impulse", impulse, momentum, 1e-4)
}

// A run sees what Drive sees, but for the kinks of the dampers.
func TestRunFollowsDrive(t *testing.T) {
	for _, o := range ordinaryCars() {
		c := o.build(t)
		for _, phase := range []Phase{Entry, Exit, Braking} {
			for _, p := range Probes(phase) {
				run, err := c.Run(p, o.grip, o.driven)
				if err != nil {
					t.Fatal(err)
				}
				want := meansOf(t, c, p, o)
				for axle := range 2 {
					tuningtest.Near(t, o.name+" capacity", float64(run.Capacity(axle, ride.Ordinary)), want.capacity[axle], 2e-4)
				}
				tuningtest.Near(t, o.name+" squat", float64(run.Squat), want.squat, 1e-2)
				tuningtest.Near(t, o.name+" nose", float64(run.Nose), want.nose, 1e-2)
			}
		}
	}
}

// means are taken over a trace of Drive.
type means struct {
	capacity    [2]float64
	squat, nose float64
}

func meansOf(t *testing.T, c Car, p Probe, o ordinary) (m means) {
	t.Helper()
	n := int(math.Round(p.watched() / 1e-3))
	times := make([]unit.Seconds, n+1)
	for i := range times {
		times[i] = unit.Seconds(i) * 1e-3
	}
	trace, err := c.Drive(c.manoeuvre(p, o.grip, o.driven), times)
	if err != nil {
		t.Fatal(err)
	}
	static := c.staticLoads()
	for i, moment := range trace {
		weight := 1 / float64(n)
		if i == 0 || i == n {
			weight /= 2
		}
		for w, load := range moment.Loads {
			m.capacity[w/2] += weight / 2 * float64(ride.Ordinary.SideForce(unit.Ratio(load/static[w])))
		}
		m.squat -= weight * float64(moment.Heave+unit.Length(moment.Pitch)*c.Rear.Distance)
		m.nose += weight * float64(moment.Heave-unit.Length(moment.Pitch)*c.Front.Distance)
	}
	return m
}
