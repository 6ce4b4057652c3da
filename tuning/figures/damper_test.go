package figures

import (
	"slices"
	"testing"

	"detent/tuning"
	"detent/tuning/ride"
	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

// ratios are the damping ratios of the front axle of a car as four numbers: low
// bump, low rebound, high bump, high rebound.
func ratiosOf(t *testing.T, m Model, at Clicks) [4]float64 {
	t.Helper()
	r, err := m.Ratios(tuning.Front, at)
	if err != nil {
		t.Fatal(err)
	}
	return [4]float64{float64(r.Low.Bump), float64(r.Low.Rebound), float64(r.High.Bump), float64(r.High.Rebound)}
}

// The nominal damper at part p of its range has the mean ratio 0.25 + 0.75·p,
// bump 2/3 and rebound 4/3 of it, and 0.45 of that at high speed.
func TestNominalDamperByAdjuster(t *testing.T) {
	rebound := dampers(1, 20)
	rebound.Moves = tuning.MovesRebound
	ratio := func(p float64) float64 { return 0.25 + 0.75*p }
	for _, c := range []struct {
		name         string
		damper       tuning.Damper
		at           Clicks
		lowB, lowR   float64 // parts of the range
		highB, highR float64
	}{
		{"one-way, both", dampers(1, 20), clicks(map[tuning.Adjuster]int{tuning.Rebound: 5}), 0.25, 0.25, 0.25, 0.25},
		{"one-way, rebound", rebound, clicks(map[tuning.Adjuster]int{tuning.Rebound: 5}), 0.5, 0.25, 0.5, 0.25},
		{"two-way", dampers(2, 20), clicks(map[tuning.Adjuster]int{tuning.Bump: 20, tuning.Rebound: 0}), 1, 0, 1, 0},
		{"three-way", dampers(3, 20), clicks(map[tuning.Adjuster]int{tuning.LowBump: 5, tuning.HighBump: 15, tuning.Rebound: 10}), 0.25, 0.5, 0.75, 0.5},
		{"four-way", dampers(4, 20), clicks(map[tuning.Adjuster]int{tuning.LowBump: 0, tuning.HighBump: 20, tuning.LowRebound: 5, tuning.HighRebound: 10}), 0, 0.25, 1, 0.5},
	} {
		car := knownCar(t)
		car.Dampers[tuning.Front], car.Curves[tuning.Front] = c.damper, nil
		got := ratiosOf(t, modelOf(t, car), c.at)
		for i, want := range [4]float64{ratio(c.lowB) * 2 / 3, ratio(c.lowR) * 4 / 3, ratio(c.highB) * 2 / 3 * 0.45, ratio(c.highR) * 4 / 3 * 0.45} {
			tuningtest.Near(t, c.name, got[i], want, 1e-12)
		}
	}
}

// Worked by hand: 120 N at 60 mm/s is 2000 N·s/m at the shaft and 2000·0.9² =
// 1620 at the wheel; critical is 2√(40500·220) = 5969.92462264. Click 8 lies
// half way to three times as much.
func TestForceTableByAdjuster(t *testing.T) {
	const unitRatio = 1620 / 5969.92462264
	four := knownCar(t)
	four.Dampers[tuning.Front] = dampers(4, 16)
	for _, c := range []struct {
		name                     string
		car                      tuning.Car
		at                       Clicks
		lowB, lowR, highB, highR float64 // times that of bump at click 0
	}{
		{"soft", knownCar(t), Clicks{}, 1, 2, 1, 2},
		{"between measured clicks", knownCar(t), clicks(map[tuning.Adjuster]int{tuning.Bump: 8, tuning.Rebound: 4}), 2, 3, 2, 3},
		{"low and high apart", four, clicks(map[tuning.Adjuster]int{tuning.LowBump: 16, tuning.HighRebound: 16}), 3, 2, 1, 6},
	} {
		got := ratiosOf(t, modelOf(t, c.car), c.at)
		for i, want := range [4]float64{c.lowB, c.lowR, c.highB, c.highR} {
			tuningtest.Near(t, c.name, got[i], want*unitRatio, 1e-9)
		}
	}
}

// Forces that scatter down as the speed rises, rest without force and a table
// shorter than the adjuster's range still make a damper.
func TestForceTableAsMeasured(t *testing.T) {
	car := knownCar(t)
	car.Curves[tuning.Front] = table(t, "click,speed_mm_s,bump_n,rebound_n\n2,0,0,0\n2,50,100,200\n2,100,99,0\n9,0,0,0\n9,50,300,400\n9,100,310,390\n")
	m := modelOf(t, car)
	soft, err := m.Damper(tuning.Front, clicks(map[tuning.Adjuster]int{tuning.Bump: 2, tuning.Rebound: 2}))
	if err != nil {
		t.Fatal(err)
	}
	const motion = 0.9
	tuningtest.Near(t, "force that scatters", float64(soft.Force(0.1/motion)), 100*motion, 1e-9)
	tuningtest.Near(t, "force that falls away", float64(soft.Force(-0.1/motion)), -200*motion, 1e-9)
	for _, beyond := range [][2]int{{0, 2}, {16, 9}} {
		at := func(click int) [4]float64 {
			return ratiosOf(t, m, clicks(map[tuning.Adjuster]int{tuning.Bump: click, tuning.Rebound: click}))
		}
		if at(beyond[0]) != at(beyond[1]) {
			t.Errorf("click %d does not hold what click %d measured", beyond[0], beyond[1])
		}
	}
	ends := func(a Assumption) bool { return a.Kind == TableEnds && a.Between == [2]int{2, 9} }
	if all := m.Assumed(OnDampers); !slices.ContainsFunc(all, ends) || !m.Estimate(OnDampers, tuning.Front) {
		t.Errorf("it is not told that the table ends: %+v", all)
	}
}

func TestNoSuchDamper(t *testing.T) {
	car := knownCar(t)
	car.Dampers[tuning.Rear] = tuning.Damper{}
	m := modelOf(t, car)
	for axle, at := range map[tuning.Axle]Clicks{tuning.Front: clicks(map[tuning.Adjuster]int{tuning.Bump: 17}), tuning.Rear: {}} {
		if _, err := m.Damper(axle, at); tuning.KindOf(err) != tuning.Invalid {
			t.Errorf("the %s damper at %v: %v, want a Refusal", axle, at, err)
		}
	}
}

func TestLines(t *testing.T) {
	lines, err := modelOf(t, knownCar(t)).Lines(tuning.Front)
	if err != nil {
		t.Fatal(err)
	}
	if len(lines) != 4 || len(lines[0].Ratios) != 17 {
		t.Fatalf("%d lines, want bump and rebound at low and high speed over 17 clicks", len(lines))
	}
	// Over 16 clicks the low-speed bump goes from 0.27136 to three times that.
	per := 2 * 0.2713602108 / 16
	n, ok := lines[0].Clicks()
	if !ok {
		t.Fatal("the clicks change nothing")
	}
	tuningtest.Near(t, "clicks for 0.05", n, 0.05/per, 1e-8)
	if got := lines[0].Name() + "; " + lines[3].Name(); got != "bump, low speed; rebound, high speed" {
		t.Errorf("the lines are called %q", got)
	}
}

func TestOddClicks(t *testing.T) {
	line := Line{First: 2, Ratios: []unit.Ratio{0.20, 0.21, 0.215, 0.30, 0.32, 0.48, 0.66, 0.66}}
	want := []Stretch{{2, 4, false, 0.005}, {6, 8, true, 0.18}, {8, 9, false, 0}}
	got := line.Odd()
	if len(got) != len(want) {
		t.Fatalf("%+v, want %+v", got, want)
	}
	for i := range want {
		tuningtest.Near(t, "worth", float64(got[i].Worth), float64(want[i].Worth), 1e-12)
		got[i].Worth = want[i].Worth
		if got[i] != want[i] {
			t.Errorf("%+v, want %+v", got[i], want[i])
		}
	}
	if even := (Line{Ratios: []unit.Ratio{0.2, 0.22, 0.37}}).Odd(); len(even) != 0 {
		t.Errorf("clicks worth just 0.02 and 0.15 are pointed out: %+v", even)
	}
}

// With all adjusters on one click the window is that of the nominal damper.
func TestWindowOfNominalDamper(t *testing.T) {
	car := knownCar(t)
	car.Curves[tuning.Front] = nil
	m := modelOf(t, car)
	w, err := m.Window(tuning.Front, clicks(map[tuning.Adjuster]int{tuning.Bump: 5, tuning.Rebound: 5}), tuning.Bumpy)
	if err != nil {
		t.Fatal(err)
	}
	corner := ride.Corner{Sprung: 220, Unsprung: 30, Wheel: 40500, Tyre: 200e3, Relaxation: 0.35}
	var nominal []ride.Damper
	for click := range 17 {
		d, err := corner.Nominal(0.9, click, 16)
		if err != nil {
			t.Fatal(err)
		}
		nominal = append(nominal, d)
	}
	want, err := ride.FindWindow(corner, nominal, ride.Bumpy)
	if err != nil {
		t.Fatal(err)
	}
	if w.Best != want.Best || w.From != want.From || w.To != want.To || w.Today != 5 || w.Counted != tuning.Bump {
		t.Errorf("best %d, %d to %d, today %d; want best %d, %d to %d, today 5", w.Best, w.From, w.To, w.Today, want.Best, want.From, want.To)
	}
	for click := range want.Grip {
		tuningtest.Near(t, "index", float64(w.Grip[click].Index), float64(want.Grip[click].Index), 1e-12)
	}
	lost, err := want.GivesAway(5)
	if err != nil {
		t.Fatal(err)
	}
	tuningtest.Near(t, "given away", float64(w.GivesAway), float64(lost), 1e-9)
}

// Adjusters turn together by the same part of their ranges, none past a stop,
// and today's click is today's setting.
func TestAlong(t *testing.T) {
	car := knownCar(t)
	d := dampers(2, 30)
	d.Range[tuning.Rebound] = 20
	car.Dampers[tuning.Front], car.Curves[tuning.Front] = d, nil
	m := modelOf(t, car)
	today := clicks(map[tuning.Adjuster]int{tuning.Bump: 9, tuning.Rebound: 12})
	for click, rebound := range map[int]int{9: 12, 12: 14, 6: 10, 10: 13, 8: 11, 30: 20, 0: 6} {
		want := clicks(map[tuning.Adjuster]int{tuning.Bump: click, tuning.Rebound: rebound})
		if got := m.Along(tuning.Front, today, click); got != want {
			t.Errorf("bump at %d takes rebound to %d, want %d", click, got[tuning.Rebound], rebound)
		}
	}
}

func TestInside(t *testing.T) {
	window := Window{Window: ride.Window{Best: 14, From: 10, To: 20}}
	for today, want := range map[int]int{3: 10, 10: 10, 12: 12, 14: 14, 18: 14, 25: 14} {
		window.Today = today
		if got := window.Inside(); got != want {
			t.Errorf("from %d the nearest inside is %d, want %d", today, got, want)
		}
	}
}
