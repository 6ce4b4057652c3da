package transfer

import (
	"math"
	"testing"

	"detent/tuning/unit"
)

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
