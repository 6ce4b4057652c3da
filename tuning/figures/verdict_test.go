package figures

import (
	"strings"
	"testing"

	"detent/tuning"
)

// advise is the trade's answer for a car that stands at its start.
func advise(t testing.TB, car tuning.Car, at tuning.Setting, what tuning.What, where tuning.Where) tuning.Advice {
	t.Helper()
	rear := tuning.Rear
	advice, err := tuning.Advise(car, at, tuning.Complaint{What: what, Where: where, Axle: &rear}, tuning.History{}, tuning.DefaultSizes)
	if err != nil {
		t.Fatal(err)
	}
	return advice
}

// The first remedies for entry are common practice, no published source: the
// model stands behind them on every ordinary car.
func TestEntryRemediesAgree(t *testing.T) {
	for _, damper := range []tuning.Damper{dampers(1, 30), dampers(2, 12), dampers(2, 30), dampers(3, 16), dampers(4, 24)} {
		for _, car := range layoutsAndTyres(damper) {
			m, at := modelOf(t, car), start(t, car)
			for _, what := range []tuning.What{tuning.Understeer, tuning.Oversteer} {
				advice := advise(t, car, at, what, tuning.Entry)
				if len(advice.Remedies) == 0 {
					t.Fatalf("no remedy for %s", what)
				}
				v := m.Judge(advice.Complaint, at, advice.Remedies[0].Moves)
				if v.Word != Agrees {
					t.Errorf("%s engine, %s drive, %s tyres, %s-way, %s: %s: %s", car.Engine, car.Drive, car.Tyre, damper.Ways, what, v.Word, v.Say)
				}
			}
		}
	}
}

// Turned the other way the same clicks disagree.
func TestEntryRemedyBackwardsDisagrees(t *testing.T) {
	for _, car := range layoutsAndTyres(dampers(2, 30)) {
		m, at := modelOf(t, car), start(t, car)
		advice := advise(t, car, at, tuning.Understeer, tuning.Entry)
		after, err := at.Apply(advice.Remedies[0].Moves)
		if err != nil {
			t.Fatal(err)
		}
		if v := m.Judge(advice.Complaint, after, tuning.Backward(advice.Remedies[0].Moves)); v.Word != Disagrees {
			t.Errorf("%s engine, %s drive: %s: %s", car.Engine, car.Drive, v.Word, v.Say)
		}
	}
}

// Every verdict on a car of which little is known: one sentence, with the word
// estimate unless there is no answer, and a figure. The words are the model's
// own; on exit and brakes it often does not follow practice, and says so.
func TestVerdicts(t *testing.T) {
	car := unknownCar(tuning.FrontEngine, tuning.RearDrive, tuning.SemiSlick, dampers(4, 24))
	m, at := modelOf(t, car), start(t, car)
	for _, c := range []struct {
		what  tuning.What
		where tuning.Where
		words []Word // of the remedies in order
		says  string
		rests Rests
	}{
		{tuning.Oversteer, tuning.Entry, []Word{Agrees, Agrees}, "points, balance front against rear", OnWhole},
		{tuning.Understeer, tuning.Mid, []Word{Agrees, Agrees}, "points, balance front against rear", OnWhole},
		{tuning.Oversteer, tuning.Exit, []Word{Disagrees, Disagrees}, "in the first 0.15 s", OnWhole},
		{tuning.Understeer, tuning.Exit, []Word{Disagrees, Disagrees}, "in the first 0.15 s", OnWhole},
		{tuning.Wheelspin, tuning.Exit, []Word{Disagrees}, "in the first 0.15 s", OnWhole},
		{tuning.LooseBraking, tuning.Entry, []Word{Agrees, Disagrees}, "on the brakes", OnWhole},
		{tuning.Dives, tuning.Entry, []Word{Agrees, Agrees}, "the nose is down", OnWhole},
		{tuning.LowGrip, tuning.Anywhere, []Word{Neutral}, "grip index", OnDampers},
		{tuning.SlowSettle, tuning.Anywhere, []Word{Agrees}, "the damping ratio goes from 0.5", OnDampers},
		{tuning.PacksDown, tuning.Anywhere, []Word{Agrees}, "pull the body down", OnDampers},
		{tuning.Bottoms, tuning.Anywhere, []Word{Agrees}, "the wheel travels", OnDampers},
		{tuning.SlowTurnIn, tuning.Entry, []Word{Unknown, Unknown}, "no yaw", OnNothing},
		{tuning.Nervous, tuning.Entry, []Word{Unknown}, "no yaw", OnNothing},
	} {
		advice := advise(t, car, at, c.what, c.where)
		var words []Word
		for _, r := range advice.Remedies {
			v := m.Judge(advice.Complaint, at, r.Moves)
			words = append(words, v.Word)
			oneSentence(t, v.Say)
			if !strings.Contains(v.Say, c.says) || v.Rests != c.rests {
				t.Errorf("%s: %q rests on %d, want %q and %d", c.what, v.Say, v.Rests, c.says, c.rests)
			}
			if estimate := strings.Contains(v.Say, "Estimate"); estimate == (v.Word == Unknown) {
				t.Errorf("%s: %s: %q", c.what, v.Word, v.Say)
			}
		}
		if len(words) != len(c.words) {
			t.Errorf("%s %s: %v, want %v", c.what, c.where, words, c.words)
			continue
		}
		for i := range words {
			if words[i] != c.words[i] {
				t.Errorf("%s %s, remedy %d: %s, want %s: %s", c.what, c.where, i+1, words[i], c.words[i], m.Judge(advice.Complaint, at, advice.Remedies[i].Moves).Say)
			}
		}
	}
}

// Rough ground is what stiff dampers cost, so on the stiff side the back-off
// from hopping agrees; near the soft stop it does not.
func TestBackOffFromHoppingAgreesOnStiffSide(t *testing.T) {
	car := unknownCar(tuning.MidEngine, tuning.RearDrive, tuning.Slick, dampers(2, 30))
	car.Aero = tuning.HighAero
	m := modelOf(t, car)
	for stand, want := range map[int]Word{28: Agrees, 3: Disagrees} {
		var at tuning.Setting
		for c := range at {
			at[c][tuning.Bump], at[c][tuning.Rebound] = stand, stand
		}
		advice := advise(t, car, at, tuning.Hops, tuning.Anywhere)
		remedy := advice.Remedies[len(advice.Remedies)-1]
		for _, r := range advice.Remedies {
			if r.Kind == tuning.TurnClicks && r.Moves[0].Adjuster == tuning.Bump {
				remedy = r
			}
		}
		if v := m.Judge(advice.Complaint, at, remedy.Moves); v.Word != want {
			t.Errorf("from %d of 30: %s, want %s: %s", stand, v.Word, want, v.Say)
		}
	}
}

// A body that is damped well already is not slow for want of damping.
func TestSettlingOfDampedBodyIsNeutral(t *testing.T) {
	car := unknownCar(tuning.FrontEngine, tuning.FrontDrive, tuning.RoadTyre, dampers(2, 30))
	m := modelOf(t, car)
	var at tuning.Setting
	for c := range at {
		at[c][tuning.Bump], at[c][tuning.Rebound] = 24, 24
	}
	moves := []tuning.Move{{Corner: tuning.FL, Adjuster: tuning.Rebound, From: 24, To: 27}, {Corner: tuning.FR, Adjuster: tuning.Rebound, From: 24, To: 27}}
	if v := m.Judge(tuning.Complaint{What: tuning.SlowSettle}, at, moves); v.Word != Neutral || !strings.Contains(v.Say, "does not lack damping") {
		t.Errorf("%s: %s", v.Word, v.Say)
	}
}

// Of a car that is known the dampers' verdicts are no estimate, and those of
// the whole car are.
func TestKnownCarIsNoEstimate(t *testing.T) {
	car := knownCar(t)
	m, at := modelOf(t, car), start(t, car)
	for what, estimate := range map[tuning.What]bool{tuning.SlowSettle: false, tuning.PacksDown: false, tuning.Understeer: true} {
		advice := advise(t, car, at, what, tuning.Anywhere)
		v := m.Judge(advice.Complaint, at, advice.Remedies[0].Moves)
		if strings.Contains(v.Say, "Estimate") != estimate {
			t.Errorf("%s: %q", what, v.Say)
		}
	}
}

func TestJudgeOfNothing(t *testing.T) {
	car := unknownCar(tuning.FrontEngine, tuning.FrontDrive, tuning.RoadTyre, dampers(2, 30))
	m, at := modelOf(t, car), start(t, car)
	stale := []tuning.Move{{Corner: tuning.FL, Adjuster: tuning.Bump, From: at[tuning.FL][tuning.Bump] + 1, To: 0}}
	for name, moves := range map[string][]tuning.Move{"no moves": nil, "moves from elsewhere": stale} {
		v := m.Judge(tuning.Complaint{What: tuning.LowGrip}, at, moves)
		if v.Word != Unknown || v.Rests != OnNothing {
			t.Errorf("%s: %+v", name, v)
		}
		oneSentence(t, v.Say)
	}
}

func TestSharpest(t *testing.T) {
	car := knownCar(t)
	at := start(t, car)
	if got, ok := modelOf(t, car).Sharpest(at); ok {
		t.Errorf("nothing is missing, and %+v would help", got)
	}
	for _, c := range []struct {
		forget func(*tuning.Car)
		want   string
	}{
		{func(c *tuning.Car) { c.Ends[tuning.Rear].Spring, c.Mass = 0, 0 }, "spring-rear"},
		{func(c *tuning.Car) { c.Ends[tuning.Front].MotionRatio, c.Mass = 0, 0 }, "ratio-front"},
		{func(c *tuning.Car) { c.Ends[tuning.Front].Track, c.Wheelbase = 0, 0 }, "track-front"},
		{func(c *tuning.Car) { c.CGHeight, c.Ends[tuning.Rear].Track = 0, 0 }, "cg-height"},
	} {
		less := car
		c.forget(&less)
		got, ok := modelOf(t, less).Sharpest(at)
		if !ok || got.Option != c.want || !(got.Moves > 0 && got.Moves < 1) {
			t.Errorf("%+v, %v, want %s", got, ok, c.want)
		}
	}
	less := car
	less.Dampers[tuning.Rear], less.Mass = tuning.Damper{}, 0
	if _, ok := modelOf(t, less).Sharpest(at); ok {
		t.Error("without dampers there is nothing to compare")
	}
}

// BenchmarkSymptom is the model's part of a /symptom: the model of the car, and
// the verdicts on its remedies. Below 30 ms.
func BenchmarkSymptom(b *testing.B) {
	car := unknownCar(tuning.FrontEngine, tuning.FrontDrive, tuning.RoadTyre, dampers(4, 30))
	at := start(b, car)
	advice := advise(b, car, at, tuning.Understeer, tuning.Entry)
	for b.Loop() {
		m := modelOf(b, car)
		for _, r := range advice.Remedies {
			if v := m.Judge(advice.Complaint, at, r.Moves); v.Word == Unknown {
				b.Fatal(v.Say)
			}
		}
		m.Assumed(OnWhole, false)
	}
}

// BenchmarkWindows is the model's part of a /window: both axles of 31 positions.
func BenchmarkWindows(b *testing.B) {
	car := unknownCar(tuning.FrontEngine, tuning.FrontDrive, tuning.RoadTyre, dampers(2, 30))
	m, at := modelOf(b, car), start(b, car)
	for b.Loop() {
		for axle := range tuning.Axle(tuning.Axles) {
			if _, err := m.Window(axle, ClicksOf(at, axle), tuning.Bumpy); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// BenchmarkSharpest is the longest part of a /car show.
func BenchmarkSharpest(b *testing.B) {
	car := unknownCar(tuning.FrontEngine, tuning.FrontDrive, tuning.RoadTyre, dampers(2, 30))
	m, at := modelOf(b, car), start(b, car)
	for b.Loop() {
		if _, ok := m.Sharpest(at); !ok {
			b.Fatal("nothing is missing")
		}
	}
}
