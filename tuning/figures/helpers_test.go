package figures

import (
	"testing"

	"detent/tuning"
	"detent/tuning/unit"
)

// dampers is a pair of so many ways, every adjuster with the same clicks.
func dampers(ways tuning.Ways, clicks int) tuning.Damper {
	d := tuning.Damper{Ways: ways, Count: tuning.FromHard}
	if ways == 1 {
		d.Moves = tuning.MovesBoth
	}
	for _, a := range d.Adjusters() {
		d.Range[a] = clicks
	}
	return d
}

// unknownCar is a car of which only the layout and the dampers are known.
func unknownCar(engine tuning.Engine, drive tuning.Drive, tyre tuning.Tyre, d tuning.Damper) tuning.Car {
	return tuning.Car{Name: "Any", Engine: engine, Drive: drive, Tyre: tyre, Aero: tuning.NoAero, Use: tuning.TrackUse,
		Dampers: [tuning.Axles]tuning.Damper{d, d}}
}

// knownCar is a car of which everything that can be told is told; invented.
func knownCar(t testing.TB) tuning.Car {
	t.Helper()
	none := unit.Stiffness(0)
	bar := unit.Stiffness(20e3)
	car := unknownCar(tuning.FrontEngine, tuning.RearDrive, tuning.SemiSlick, dampers(2, 16))
	car.Mass, car.FrontShare, car.Wheelbase, car.CGHeight = 1000, 0.5, 2.5, 0.5
	car.Ends[tuning.Front] = tuning.End{Track: 1.5, Spring: 50e3, MotionRatio: 0.9, Bar: &bar, Unsprung: 30, TyreRate: 200e3}
	car.Ends[tuning.Rear] = tuning.End{Track: 1.4, Spring: 60e3, MotionRatio: 0.8, Bar: &none, Unsprung: 40, TyreRate: 220e3}
	car.Curves[tuning.Front] = table(t, forces)
	car.Curves[tuning.Rear] = table(t, forces)
	return car
}

// forces is a damper of constant slopes: at click 0 2000 N·s/m in bump and twice
// that in rebound, at click 16 three times as much.
const forces = `click,speed_mm_s,bump_n,rebound_n
0,0,0,0
0,60,120,240
0,300,600,1200
16,0,0,0
16,60,360,720
16,300,1800,3600
`

func table(t testing.TB, csv string) *tuning.ForceTable {
	t.Helper()
	parsed, err := tuning.ParseForceTable(csv)
	if err != nil {
		t.Fatal(err)
	}
	return parsed
}

func modelOf(t testing.TB, car tuning.Car) Model {
	t.Helper()
	m, err := Of(car)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// clicks sets adjusters of one axle.
func clicks(set map[tuning.Adjuster]int) (at Clicks) {
	for a, click := range set {
		at[a] = click
	}
	return at
}

func start(t testing.TB, car tuning.Car) tuning.Setting {
	t.Helper()
	at, err := tuning.Baseline(car, tuning.Dry, tuning.DefaultSizes)
	if err != nil {
		t.Fatal(err)
	}
	return at
}
