package transfer

import (
	"math"
	"testing"

	"detent/tuning/ride"
	"detent/tuning/unit"
)

func TestFinerProbeSteps(t *testing.T) {
	for _, o := range ordinaryCars() {
		before := o.build(t)
		after := stiffer(t, before, Rear, 1.2, 1)
		for _, phase := range []Phase{Entry, Exit, Braking} {
			for _, p := range Probes(phase) {
				var balance [2]float64
				for i, finer := range []float64{1, 4} {
					var both [2]Run
					for j, c := range []Car{before, after} {
						run, err := c.run(p, c.manoeuvre(p, o.grip, o.driven), finer)
						if err != nil {
							t.Fatal(err)
						}
						both[j] = run
					}
					balance[i] = Balance(both[0], both[1], ride.Ordinary)
				}
				if off := math.Abs(balance[0] - balance[1]); off > 2e-5 {
					t.Errorf("%s, %+v: the balance is off by %g", o.name, p, off)
				}
			}
		}
	}
}

// Stiffer bump at the rear holds the rear up on the way out and hardly moves the
// nose; softer rebound at the front lets the nose rise. Seen in the steps of the
// model; the trade says the first also of the nose.
func TestSquatAndNose(t *testing.T) {
	for _, o := range ordinaryCars() {
		before := o.build(t)
		p := Probes(Exit)[0]
		first, second := runs(t, before, stiffer(t, before, Rear, 1.4, 1), p, o)
		if second.Squat >= first.Squat {
			t.Errorf("%s: stiffer rear bump squats the rear %g mm more", o.name, 1000*float64(second.Squat-first.Squat))
		}
		first, second = runs(t, before, stiffer(t, before, Front, 1, 1/1.4), p, o)
		if second.Nose <= first.Nose {
			t.Errorf("%s: softer front rebound lowers the nose by %g mm", o.name, 1000*float64(first.Nose-second.Nose))
		}
	}
}

// Bump and rebound of one axle move the front share the same way at turn-in.
func TestDampingMovesShareByRollSpeed(t *testing.T) {
	for _, o := range ordinaryCars() {
		before := o.build(t)
		for _, change := range []struct{ bump, rebound unit.Ratio }{{1.2, 1}, {1, 1.2}, {1.2, 1.2}} {
			first, second := runs(t, before, stiffer(t, before, Front, change.bump, change.rebound), Probes(Entry)[0], o)
			if second.FrontShare <= first.FrontShare {
				t.Errorf("%s, front %v at entry: share from %g to %g", o.name, change, float64(first.FrontShare), float64(second.FrontShare))
			}
		}
	}
}

// More of a remedy moves the share further the same way.
func TestMoreMovesFurther(t *testing.T) {
	for _, o := range ordinaryCars() {
		before := o.build(t)
		for axle, way := range []unit.Share{+1, -1} {
			last := unit.Share(0)
			for _, factor := range []unit.Ratio{1.05, 1.1, 1.2, 1.4, 1.8} {
				first, second := runs(t, before, stiffer(t, before, axle, 1, factor), Probes(Entry)[0], o)
				moved := way * (second.FrontShare - first.FrontShare)
				if moved <= last {
					t.Errorf("%s, axle %d rebound × %g moves the share by %g, less than before (%g)",
						o.name, axle, float64(factor), float64(moved), float64(last))
				}
				last = moved
			}
		}
	}
}
