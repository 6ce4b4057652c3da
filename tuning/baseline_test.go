package tuning

import (
	"testing"

	"pgregory.net/rapid"

	"detent/tuning/unit"
)

// Common practice, no published source.
func TestSteps(t *testing.T) {
	for n, want := range map[int][3]int{1: {1, 1, 1}, 12: {1, 1, 1}, 13: {2, 2, 1}, 19: {2, 2, 1}, 20: {3, 2, 1}, 40: {3, 2, 1}} {
		if got := [3]int{DefaultSizes.Step(n), DefaultSizes.BackOff(n), DefaultSizes.Slight}; got != want {
			t.Errorf("%d clicks: step, back-off, slight %v, want %v", n, got, want)
		}
	}
}

// Common practice, no published source.
func TestBelowMiddle(t *testing.T) {
	for n, want := range map[int]int{30: 14, 24: 11, 20: 9, 16: 7, 12: 5, 7: 3, 1: 0, 2: 0, 3: 1} {
		if got := belowMiddle(n); got != want {
			t.Errorf("%d clicks start at %d, want %d", n, got, want)
		}
	}
}

// Common practice, no published source.
func TestBaselineRules(t *testing.T) {
	four := carOf(FourDrive, ways(2, 30))
	biased := func(front unit.Share) Car { c := four; c.TorqueFront = front; return c }
	with := func(c Car, change func(*Car)) Car { change(&c); return c }
	for _, tt := range []struct {
		name                   string
		car                    Car
		weather                Weather
		bumpF, rebF, bumpR, rR int
	}{
		{"rear driven", carOf(RearDrive, ways(2, 30)), Dry, 14, 14, 11, 11},
		{"front driven", carOf(FrontDrive, ways(2, 30)), Dry, 11, 11, 14, 14},
		{"front driven, 16 clicks", carOf(FrontDrive, ways(2, 16)), Dry, 5, 5, 7, 7},
		{"rear driven, 7 clicks", carOf(RearDrive, ways(2, 7)), Dry, 3, 3, 2, 2},
		{"four-wheel, no bias", four, Dry, 14, 14, 14, 14},
		{"four-wheel, 59 % front", biased(0.59), Dry, 14, 14, 14, 14},
		{"four-wheel, 60 % front", biased(0.60), Dry, 13, 13, 14, 14},
		{"four-wheel, 60 % rear", biased(0.40), Dry, 14, 14, 13, 13},
		{"wet", carOf(RearDrive, ways(2, 30)), Wet, 11, 11, 8, 8},
		{"slicks and downforce", with(four, func(c *Car) { c.Tyre, c.Aero = Slick, HighAero }), Dry, 17, 17, 17, 17},
		{"slicks alone", with(four, func(c *Car) { c.Tyre = Slick }), Dry, 14, 14, 14, 14},
		{"downforce alone", with(four, func(c *Car) { c.Aero = HighAero }), Dry, 14, 14, 14, 14},
		{"slicks and a wing only", with(four, func(c *Car) { c.Tyre, c.Aero = Slick, WingAero }), Dry, 14, 14, 14, 14},
		{"road too", with(four, func(c *Car) { c.Use = RoadAndTrackUse }), Dry, 13, 14, 13, 14},
		{"everything adds up", with(carOf(RearDrive, ways(2, 30)), func(c *Car) { c.Use = RoadAndTrackUse; c.Tyre, c.Aero = Slick, HighAero }), Wet, 13, 14, 10, 11},
		{"held at soft", carOf(RearDrive, ways(2, 2)), Wet, 0, 0, 0, 0},
	} {
		s, err := Baseline(tt.car, tt.weather, DefaultSizes)
		if err != nil {
			t.Fatal(tt.name, err)
		}
		got := [4]int{s[FL][Bump], s[FR][Rebound], s[RL][Bump], s[RR][Rebound]}
		if want := [4]int{tt.bumpF, tt.rebF, tt.bumpR, tt.rR}; got != want {
			t.Errorf("%s: %v, want %v", tt.name, got, want)
		}
	}
}

func TestBaselineNeedsBothDampers(t *testing.T) {
	car := carOf(RearDrive, ways(2, 30))
	car.Dampers[Rear] = Damper{}
	if _, err := Baseline(car, Dry, DefaultSizes); KindOf(err) != Invalid {
		t.Errorf("a car without rear dampers: %v", err)
	}
}

// anyCar draws a car with dampers of any kind.
func anyCar(t *rapid.T) Car {
	car := Car{Name: "Any",
		Drive: rapid.SampledFrom([]Drive{FrontDrive, RearDrive, FourDrive}).Draw(t, "drive"),
		Tyre:  rapid.SampledFrom([]Tyre{RoadTyre, SemiSlick, Slick}).Draw(t, "tyre"),
		Aero:  rapid.SampledFrom([]Aero{NoAero, WingAero, HighAero}).Draw(t, "aero"),
		Use:   rapid.SampledFrom([]Use{TrackUse, RoadAndTrackUse}).Draw(t, "use"),
	}
	for axle := range Axle(Axles) {
		d := Damper{Ways: Ways(rapid.IntRange(1, 4).Draw(t, "ways")), Count: rapid.SampledFrom([]Count{FromSoft, FromHard}).Draw(t, "count")}
		for _, a := range d.Adjusters() {
			d.Range[a] = rapid.IntRange(1, 60).Draw(t, "clicks")
		}
		if d.Ways == 1 {
			d.Moves = rapid.SampledFrom([]Moves{MovesRebound, MovesBoth}).Draw(t, "moves")
		}
		car.Dampers[axle] = d
	}
	return car
}

func anySetting(t *rapid.T, car Car) Setting {
	var s Setting
	for axle := range Axle(Axles) {
		for _, a := range car.Dampers[axle].Adjusters() {
			p := rapid.IntRange(0, car.Dampers[axle].Range[a]).Draw(t, "position")
			for _, c := range axle.Corners() {
				s[c][a] = p
			}
		}
	}
	return s
}

func inside(t *rapid.T, car Car, s Setting) {
	for c := range Corner(Corners) {
		for a := range Adjuster(Adjusters) {
			if s[c][a] < 0 || s[c][a] > car.Dampers[c.Axle()].Range[a] {
				t.Fatalf("%s %s at %d, outside 0..%d", c, a, s[c][a], car.Dampers[c.Axle()].Range[a])
			}
		}
		if s[c] != s[c.Axle().Corners()[0]] {
			t.Fatalf("left and right differ: %v", s)
		}
	}
}

func TestBaselineStaysInsideAndEqual(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		car := anyCar(t)
		s, err := Baseline(car, rapid.SampledFrom([]Weather{Dry, Wet}).Draw(t, "weather"), DefaultSizes)
		if err != nil {
			t.Fatal(err)
		}
		inside(t, car, s)
	})
}

func TestRemediesStayInsideKeepTheSplitAndUndo(t *testing.T) {
	rear := Rear
	rapid.Check(t, func(t *rapid.T) {
		car := anyCar(t)
		at := anySetting(t, car)
		what := Whats[rapid.IntRange(0, len(Whats)-1).Draw(t, "what")].What
		where := rapid.SampledFrom([]Where{Anywhere, Entry, Mid, Exit}).Draw(t, "where")
		advice, err := Advise(car, at, Complaint{What: what, Where: where, Axle: &rear}, History{}, DefaultSizes)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range advice.Remedies {
			then, err := at.Apply(r.Moves)
			if err != nil {
				t.Fatal(err)
			}
			inside(t, car, then)
			if r.Kind == TurnClicks && (what == LowGrip || what == Hops) {
				for _, m := range r.Moves[1:] {
					if m.To-m.From != r.Moves[0].To-r.Moves[0].From {
						t.Fatalf("the split is lost: %+v", r.Moves)
					}
				}
			}
			back, err := then.Apply(Backward(r.Moves))
			if err != nil || back != at {
				t.Fatalf("undo does not restore: %v, %v, want %v", err, back, at)
			}
		}
	})
}

func TestCountingRoundTrips(t *testing.T) {
	for n := 1; n <= 60; n++ {
		for _, count := range []Count{FromSoft, FromHard} {
			d := twoWay(n, count)
			for p := 0; p <= n; p++ {
				back, err := d.Read(Rebound, d.Counted(Rebound, p))
				if err != nil || back != p {
					t.Fatalf("%d of %d from %s reads back as %d, %v", p, n, count, back, err)
				}
			}
			for _, past := range []int{-1, n + 1} {
				if _, err := d.Read(Rebound, past); KindOf(err) != Invalid {
					t.Errorf("%d of %d is past the stop and was read", past, n)
				}
			}
		}
	}
	if got := twoWay(30, FromHard).ShownBoth(Bump, 18); got != "12 from hard (18 from soft)" {
		t.Errorf("shown %q", got)
	}
}
