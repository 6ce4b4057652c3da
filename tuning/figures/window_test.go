package figures

import (
	"math"
	"testing"

	"detent/tuning"
	"detent/tuning/ride"
	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

// All three surfaces at once are what each is alone.
func TestWindowsOfEverySurface(t *testing.T) {
	car := nineCars()[1]
	m, at := modelOf(t, car), start(t, car)
	all, err := m.Windows(tuning.Rear, ClicksOf(at, tuning.Rear))
	if err != nil {
		t.Fatal(err)
	}
	for i, surface := range []tuning.Surface{tuning.Smooth, tuning.Bumpy, tuning.Rough} {
		one, err := m.Window(tuning.Rear, ClicksOf(at, tuning.Rear), surface)
		if err != nil {
			t.Fatal(err)
		}
		if all[i].Surface != surface || all[i].Best != one.Best || all[i].From != one.From || all[i].To != one.To || all[i].GivesAway != one.GivesAway {
			t.Errorf("%s: %+v, alone %+v", surface, all[i], one)
		}
	}
	if all[2].Grip[0].Road >= all[0].Grip[0].Road {
		t.Error("rough ground grips better than smooth")
	}
}

// The short way to today's loss finds what the whole window does, or nearly.
func TestLoses(t *testing.T) {
	car := knownCar(t)
	m := modelOf(t, car)
	for _, click := range []int{0, 3, 8, 16} {
		at := clicks(map[tuning.Adjuster]int{tuning.Bump: click, tuning.Rebound: click})
		w, err := m.Window(tuning.Front, at, tuning.Smooth)
		if err != nil {
			t.Fatal(err)
		}
		loses, err := m.Loses(tuning.Front, at)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(loses-w.GivesAway)) > 2e-4 {
			t.Errorf("click %d loses %g, of the window %g", click, float64(loses), float64(w.GivesAway))
		}
	}
	car.Curves[tuning.Front] = nil
	if loses, err := modelOf(t, car).Loses(tuning.Front, Clicks{}); loses != 0 || err != nil {
		t.Errorf("a damper nobody knows loses %g, %v", float64(loses), err)
	}
}

// 0.2 % of grip is about 0.05 s in a lap of 90 s.
func TestLapTime(t *testing.T) {
	tuningtest.Near(t, "0.2 %", float64(lapTime(0.002)), 0.045, 0.01)
	tuningtest.Near(t, "nothing", float64(lapTime(0)), 0, 0)
	if all := lapTime(1); math.IsInf(float64(all), 0) || math.IsNaN(float64(all)) {
		t.Errorf("all grip lost costs %g s", float64(all))
	}
}

func TestWindowThatAdvisesNothing(t *testing.T) {
	level := Window{Window: ride.Window{Grip: make([]ride.Grip, 5), From: 0, To: 4, Best: 2}}
	if level.Advises() {
		t.Error("a window over the whole range is advice")
	}
	level.From = 1
	if !level.Advises() || level.AtStop() {
		t.Error("a window inside the range is none")
	}
	level.Best = 4
	if !level.AtStop() {
		t.Error("a best at the stop is a peak")
	}
}

// Front and rear on one scale: far apart from 1.5 times on, with the clicks that
// bring them together, the harder end going softer if that is enough.
func TestSpread(t *testing.T) {
	car := unknownCar(tuning.FrontEngine, tuning.RearDrive, tuning.RoadTyre, dampers(2, 30))
	m := modelOf(t, car)
	stand := func(front, rear int) (at tuning.Setting) {
		for corner := range at {
			click := front
			if tuning.Corner(corner).Axle() == tuning.Rear {
				click = rear
			}
			at[corner][tuning.Bump], at[corner][tuning.Rebound] = click, click
		}
		return at
	}
	ratio := func(click int) float64 { return 0.25 + 0.75*float64(click)/30 }
	for _, c := range []struct {
		front, rear int
		far         bool
		turns       tuning.Axle
		to          int
	}{{10, 10, false, 0, 0}, {10, 17, false, 0, 0}, {6, 20, true, tuning.Rear, 6}, {26, 3, true, tuning.Front, 3}} {
		s, err := m.Spread(stand(c.front, c.rear))
		if err != nil {
			t.Fatal(err)
		}
		tuningtest.Near(t, "front ratio", float64(s.Ratio[tuning.Front]), ratio(c.front), 1e-9)
		tuningtest.Near(t, "rear ratio", float64(s.Ratio[tuning.Rear]), ratio(c.rear), 1e-9)
		if s.Far != c.far || s.Far && (s.Turns != c.turns || s.To != c.to || !s.Meets || s.Counted != tuning.Bump) {
			t.Errorf("front %d, rear %d: %+v", c.front, c.rear, s)
		}
	}
	// A rear that is too hard even at its soft stop: the front goes stiffer.
	stiff := knownCar(t)
	csv := "click,speed_mm_s,bump_n,rebound_n\n0,60,400,800\n0,300,800,1600\n16,60,500,1000\n16,300,900,1800\n"
	stiff.Curves[tuning.Rear] = table(t, csv)
	s, err := modelOf(t, stiff).Spread(tuning.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	if !s.Far || s.Harder != tuning.Rear || s.Turns != tuning.Front || s.To <= 0 {
		t.Errorf("%+v", s)
	}
}

// The closed form of a damper's mean pull against a plain sum.
func TestPulledDown(t *testing.T) {
	car := knownCar(t)
	m := modelOf(t, car)
	d, err := m.Damper(tuning.Front, Clicks{})
	if err != nil {
		t.Fatal(err)
	}
	const deviation, points, reach = 0.2, 200000, 9.0
	var sum float64
	for i := range points {
		u := reach * (2*(float64(i)+0.5)/points - 1)
		sum += float64(d.Force(unit.Speed(u*deviation))) * math.Exp(-u*u/2) / math.Sqrt(2*math.Pi) * 2 * reach / points
	}
	tuningtest.Near(t, "mean force", float64(d.MeanForce(deviation)), sum, 1e-6)
}
