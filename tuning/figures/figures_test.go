package figures

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"detent/tuning"
	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

// Worked by hand from the formulas of package ride: front m_s = 1000·0.5/2 − 30
// = 220 kg, k_w = 50000·0.9² = 40500 N/m; rear 210 kg, 60000·0.8² = 38400 N/m.
func TestFiguresOfKnownCar(t *testing.T) {
	m := modelOf(t, knownCar(t))
	for axle, want := range []struct{ frequency, ride, hop float64 }{
		{2.15941594, 1.96921783, 14.25007154}, // √(40500/220)/2π, with 40500·200000/240500 = 33679.83 N/m, √(240500/30)/2π
		{2.15216764, 1.98582595, 12.79193932}, // √(38400/210)/2π, with 38400·220000/258400 = 32693.50 N/m, √(258400/40)/2π
	} {
		f, err := m.Frequencies(tuning.Axle(axle))
		if err != nil {
			t.Fatal(err)
		}
		tuningtest.Near(t, "frequency on the spring", float64(f.Wheel), want.frequency, 1e-8)
		tuningtest.Near(t, "frequency with the tyre", float64(f.Ride), want.ride, 1e-8)
		tuningtest.Near(t, "wheel hop", float64(f.Hop), want.hop, 1e-8)
	}
}

// The same car as a whole: weights on its axles, the moment of its weight, bar
// and distances.
func TestWholeCarOfKnownCar(t *testing.T) {
	car := knownCar(t)
	m := modelOf(t, car)
	whole, err := m.wholeCar(tuning.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	loads, err := whole.StaticLoads()
	if err != nil {
		t.Fatal(err)
	}
	for i, load := range loads {
		tuningtest.Near(t, "load "+tuning.Corner(i).String(), float64(load), 1000*9.81/4, 1e-12)
	}
	tuningtest.Near(t, "wheelbase", float64(whole.Wheelbase()), 2.5, 1e-12)
	tuningtest.Near(t, "distance of the front axle", float64(whole.Front.Distance), 2.5*420/860, 1e-12)
	tuningtest.Near(t, "moment of the weight", float64(whole.Sprung)*float64(whole.Height)+140*0.30, 1000*0.5, 1e-12)
	tuningtest.Near(t, "bar", float64(whole.Front.Bar), 20e3*1.5*1.5, 1e-12)
	if whole.Rear.Bar != 0 {
		t.Errorf("a car without a rear bar has one of %g", float64(whole.Rear.Bar))
	}
}

func TestEveryLayoutIsFilled(t *testing.T) {
	for _, engine := range []tuning.Engine{tuning.FrontEngine, tuning.MidEngine, tuning.RearEngine} {
		for _, drive := range []tuning.Drive{tuning.FrontDrive, tuning.RearDrive, tuning.FourDrive} {
			for _, aero := range []tuning.Aero{tuning.NoAero, tuning.WingAero, tuning.HighAero} {
				for _, tyre := range []tuning.Tyre{tuning.RoadTyre, tuning.SemiSlick, tuning.Slick} {
					car := unknownCar(engine, drive, tyre, dampers(2, 30))
					car.Aero = aero
					m := modelOf(t, car)
					if got := layoutOf(car).engine; got != engine {
						t.Errorf("%s engine, %s drive has the figures of a %s engine", engine, drive, got)
					}
					whole, err := m.wholeCar(start(t, car))
					if err != nil {
						t.Fatal(err)
					}
					if err := whole.Check(); err != nil {
						t.Errorf("%s engine, %s drive: %v", engine, drive, err)
					}
				}
			}
		}
	}
}

// An assumed spring gives the frequency its class is assumed to have, whatever
// else the member has told.
func TestAssumedSpringGivesTheClassItsFrequency(t *testing.T) {
	car := unknownCar(tuning.MidEngine, tuning.RearDrive, tuning.SemiSlick, dampers(2, 30))
	car.Mass, car.Ends[tuning.Rear].MotionRatio = 700, 0.6
	m := modelOf(t, car)
	for axle, want := range semiSlickClass.frequency {
		f, err := m.Frequencies(tuning.Axle(axle))
		if err != nil {
			t.Fatal(err)
		}
		tuningtest.Near(t, "frequency", float64(f.Wheel), float64(want), 1e-12)
	}
}

func TestWhatIsAssumed(t *testing.T) {
	known := modelOf(t, knownCar(t))
	for _, rests := range []Rests{OnNothing, OnCorners, OnDampers} {
		if got := known.Assumed(rests); len(got) > 0 {
			t.Errorf("a car of which all is known assumes %+v", got)
		}
		for axle := range tuning.Axle(tuning.Axles) {
			if known.Estimate(rests, axle) {
				t.Errorf("a car of which all is known estimates its %s", axle)
			}
		}
	}
	layout := Layout{known.car.Engine, known.car.Drive, known.car.Tyre}
	ordinary, body := Assumption{Kind: OrdinaryFigures, Ends: bothEnds, Layout: layout}, Assumption{Kind: RigidBody, Ends: bothEnds}
	if diff := cmp.Diff([]Assumption{ordinary, body}, known.Assumed(OnWhole)); diff != "" {
		t.Errorf("the whole car assumes of a known one only the body's links and inertias: want -, got +:\n%s", diff)
	}

	car := knownCar(t)
	car.Ends[tuning.Rear].Spring, car.Wheelbase, car.Curves[tuning.Front] = 0, 0, nil
	m := modelOf(t, car)
	spring := Assumption{Kind: OneFigure, Name: "spring", Ends: [tuning.Axles]bool{tuning.Rear: true}, Values: []Figure{{unit.OfStiffness, float64(m.car.Ends[tuning.Rear].Spring), "rear"}}}
	wheelbase := Assumption{Kind: OneFigure, Name: "wheelbase", Ends: bothEnds, Values: []Figure{{unit.OfLength, float64(m.car.Wheelbase), ""}}}
	dampers := Assumption{Kind: NominalDampers, Ends: [tuning.Axles]bool{tuning.Front: true}}
	for rests, want := range map[Rests][]Assumption{
		OnNothing: nil,
		OnCorners: {ordinary, spring},
		OnDampers: {ordinary, spring, dampers},
		OnWhole:   {ordinary, wheelbase, spring, dampers, body},
	} {
		if diff := cmp.Diff(want, m.Assumed(rests)); diff != "" {
			t.Errorf("resting on %d: want -, got +:\n%s", rests, diff)
		}
	}
	if m.Estimate(OnCorners, tuning.Front) || !m.Estimate(OnCorners, tuning.Rear) || !m.Estimate(OnDampers, tuning.Front) {
		t.Error("what an end rests on is taken for the other's")
	}
}

func TestTooLittleIsKnown(t *testing.T) {
	m := modelOf(t, unknownCar(tuning.RearEngine, tuning.RearDrive, tuning.Slick, dampers(2, 30)))
	if got := m.Assumed(OnCorners)[0]; got.Kind != OrdinaryCar || got.Layout != (Layout{tuning.RearEngine, tuning.RearDrive, tuning.Slick}) {
		t.Errorf("a typical car is not told to be one: %+v", got)
	}
}

func TestNoSuchCar(t *testing.T) {
	for name, spoil := range map[string]func(*tuning.Car){
		"not a number":      func(c *tuning.Car) { c.Mass = unit.Mass(math.NaN()) },
		"infinite":          func(c *tuning.Car) { c.Ends[tuning.Front].Spring = unit.Stiffness(math.Inf(1)) },
		"below zero":        func(c *tuning.Car) { c.Ends[tuning.Rear].TyreRate = -1 },
		"wheels too heavy":  func(c *tuning.Car) { c.Mass, c.FrontShare, c.Ends[tuning.Front].Unsprung = 700, 0.2, 90 },
		"one click in file": func(c *tuning.Car) { c.Curves[tuning.Rear] = table(t, forces[:strings.Index(forces, "16,")]) },
	} {
		car := knownCar(t)
		spoil(&car)
		if _, err := Of(car); tuning.KindOf(err) != tuning.Invalid {
			t.Errorf("%s: %v, want a Refusal", name, err)
		}
	}
}

// anything draws a figure that is unknown, ordinary, or at its bounds.
func anything[T ~float64](t *rapid.T, name string, low, high float64) T {
	return T(rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(low, high), rapid.SampledFrom([]float64{low, high})).Draw(t, name))
}

// spoil makes one figure of some cars nonsense.
func spoil(t *rapid.T, car *tuning.Car) {
	if rapid.IntRange(0, 3).Draw(t, "spoil") == 0 {
		f := everyFigure[rapid.IntRange(0, len(everyFigure)-1).Draw(t, "figure")]
		f.set(car, rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 1e-300, 1e300}).Draw(t, "nonsense"))
	}
}

// Whatever is told of a car, an answer is a figure or a Refusal, and a verdict
// is one sentence.
func TestNeverNaNNeverPanics(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		car := unknownCar(rapid.SampledFrom([]tuning.Engine{tuning.FrontEngine, tuning.MidEngine, tuning.RearEngine}).Draw(rt, "engine"),
			rapid.SampledFrom([]tuning.Drive{tuning.FrontDrive, tuning.RearDrive, tuning.FourDrive}).Draw(rt, "drive"), tuning.RoadTyre,
			dampers(tuning.Ways(rapid.IntRange(1, 4).Draw(rt, "ways")), rapid.IntRange(1, 5).Draw(rt, "clicks")))
		car.Mass = anything[unit.Mass](rt, "mass", 200, 4000)
		car.FrontShare = anything[unit.Share](rt, "share", 0.2, 0.8)
		car.CGHeight = anything[unit.Length](rt, "height", 0.15, 1.2)
		for axle := range car.Ends {
			end := &car.Ends[axle]
			end.Spring = anything[unit.Stiffness](rt, "spring", 5e3, 1e6)
			end.MotionRatio = anything[unit.Ratio](rt, "ratio", 0.2, 2)
			end.Unsprung = anything[unit.Mass](rt, "unsprung", 5, 150)
			end.TyreRate = anything[unit.Stiffness](rt, "tyre", 5e4, 1e6)
			bar := anything[unit.Stiffness](rt, "bar", 0, 1e6)
			end.Bar = &bar
		}
		spoil(rt, &car)
		at := start(t, car)
		c := tuning.Complaint{What: tuning.Whats[rapid.IntRange(0, len(tuning.Whats)-1).Draw(rt, "what")].What,
			Where: rapid.SampledFrom([]tuning.Where{tuning.Anywhere, tuning.Exit}).Draw(rt, "where")}
		m, err := Of(car)
		if err != nil {
			if tuning.KindOf(err) != tuning.Invalid {
				rt.Errorf("%v is no Refusal", err)
			}
			return
		}
		for axle := range tuning.Axle(tuning.Axles) {
			a := rapid.SampledFrom(car.Dampers[axle].Adjusters()).Draw(rt, "adjuster")
			to := rapid.IntRange(0, car.Dampers[axle].Range[a]).Draw(rt, "to")
			moves := []tuning.Move{}
			for _, corner := range axle.Corners() {
				moves = append(moves, tuning.Move{Corner: corner, Adjuster: a, From: at[corner][a], To: to})
			}
			j, _, err := m.Judge(c, at, tuning.Remedy{Kind: tuning.TurnClicks, Moves: moves})
			if err != nil && tuning.KindOf(err) != tuning.Invalid {
				rt.Errorf("%v is no Refusal", err)
			}
			for _, v := range []float64{j.Points, j.Most, j.Does.Before, j.Does.After} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					rt.Errorf("%+v has a figure that is none", j)
				}
			}
			if w, err := m.Window(axle, ClicksOf(at, axle), tuning.Bumpy); err == nil && !(w.GivesAway >= 0 && w.GivesAway <= 1) {
				rt.Errorf("today gives away %g", float64(w.GivesAway))
			}
		}
	})
}
