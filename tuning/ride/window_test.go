package ride

import (
	"math"
	"math/rand/v2"
	"syscall"
	"testing"
	"time"

	"detent/tuning/unit"
)

// The closed form of E[Y(x)] against a plain sum over the normal density.
func TestRoadGripAgainstSum(t *testing.T) {
	for _, c := range []Corner{ordinaryCorner(), stiffCorner(), {Sprung: 60, Unsprung: 30, Wheel: 50000, Tyre: 400000}} {
		d := linear(t, 2000)
		road := Bumpy.road()
		unrest := c.onRoad(d, road)
		sigma := math.Sqrt(unrest.Load)
		var sum float64
		const n = 400000
		for i := range n {
			x := 1 + sigma*(16*(float64(i)+0.5)/n-8)
			density := math.Exp(-math.Pow((x-1)/sigma, 2)/2) / math.Sqrt(2*math.Pi)
			sum += float64(SideForce(unit.Ratio(x))) * density * 16 / n
		}
		near(t, "road grip", float64(unrest.Grip(Ordinary)), sum-unrest.Lag, 1e-9)
	}
}

func TestSideForce(t *testing.T) {
	for _, c := range []struct{ x, want unit.Ratio }{{-1, 0}, {0, 0}, {1, 1}, {1.6, 1.504}, {0.4, 0.424}} {
		if got := SideForce(c.x); math.Abs(float64(got-c.want)) > 1e-15 {
			t.Errorf("Y(%g) = %g, want %g", float64(c.x), float64(got), float64(c.want))
		}
	}
}

// The three trials are ordered as the trade says: too soft costs in the body's
// movement, too stiff over kerbs and rough ground.
func TestWindowOfOrdinaryCorner(t *testing.T) {
	c := ordinaryCorner()
	dampers := nominals(t, c, 30)
	for i := range 12 { // on to twice what a nominal damper reaches
		d, err := dampers[30].Scaled(unit.Ratio(1+0.25*float64(i+1)), unit.Ratio(1+0.25*float64(i+1)))
		if err != nil {
			t.Fatal(err)
		}
		dampers = append(dampers, d)
	}
	for _, surface := range Surfaces {
		w, err := FindWindow(c, dampers, surface)
		if err != nil {
			t.Fatal(err)
		}
		checkWindow(t, w)
	}
	w, err := FindWindow(c, dampers, Smooth)
	if err != nil {
		t.Fatal(err)
	}
	for click, want := range map[int]Trial{0: BodyTrial, w.Best: None} {
		if got, err := w.CostsMost(click); err != nil || got != want {
			t.Errorf("click %d costs most in %v (%v), want %v", click, got, err, want)
		}
	}
	if got, err := w.CostsMost(len(dampers) - 1); err != nil || got != RoadTrial && got != KerbTrial {
		t.Errorf("the stiffest costs most in %v (%v)", got, err)
	}
}

// checkWindow asserts what holds for every window with one peak.
func checkWindow(t *testing.T, w Window) {
	t.Helper()
	if !(0 <= w.From && w.From <= w.Best && w.Best <= w.To && w.To < len(w.Grip)) {
		t.Fatalf("window %d to %d around %d", w.From, w.To, w.Best)
	}
	for click, g := range w.Grip {
		if g.Index > w.Grip[w.Best].Index {
			t.Errorf("click %d beats the best", click)
		}
		near(t, "index", float64(g.Index), float64(g.Road*g.Body*g.Kerb), 1e-15)
		loses, err := w.GivesAway(click)
		if err != nil {
			t.Fatal(err)
		}
		if w.Contains(click) != (loses <= 0.002) {
			t.Errorf("click %d loses %g and is inside: %v", click, float64(loses), w.Contains(click))
		}
	}
}

// Half the step changes no grip beyond 1e-6, or 3e-5 where the tyre leaves the
// road, whose moment is only found to a part of a step.
func TestTrialStep(t *testing.T) {
	for _, c := range []Corner{ordinaryCorner(), stiffCorner()} {
		for _, d := range nominals(t, c, 6) {
			whole, err := newTrial(c, d)
			if err != nil {
				t.Fatal(err)
			}
			half := *whole
			half.longest = kerbStep / 4
			near(t, "body", whole.body().at(Ordinary), half.body().at(Ordinary), 1e-6)
			for _, s := range Surfaces {
				kerb := surfaces[s].kerb
				near(t, s.String()+" kerb", whole.kerb(kerb).at(Ordinary), half.kerb(kerb).at(Ordinary), map[Surface]float64{Smooth: 1e-6, Bumpy: 3e-5, Rough: 4e-5}[s])
			}
		}
	}
}

// A corner left alone only loses energy, in the air as on the ground.
func TestTrialOnlyTakesEnergy(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	c, d := ordinaryCorner(), kneed(t, 1500, 600, 3000, 1200)
	trial, err := newTrial(c, d)
	if err != nil {
		t.Fatal(err)
	}
	energy := func(m motion) float64 {
		e := trial.ms*m.bodySpeed*m.bodySpeed/2 + trial.mu*m.wheelSpeed*m.wheelSpeed/2 + trial.kw*math.Pow(m.wheel-m.body, 2)/2
		if rest := trial.weight / trial.kt; m.wheel > rest { // off the ground: the tyre is slack, the weight pulls
			return e - trial.kt*rest*rest/2 + trial.weight*m.wheel
		}
		return e + trial.kt*m.wheel*m.wheel/2
	}
	still := func(float64) shove { return shove{} }
	for range 50 {
		m := motion{0.1 * random.NormFloat64(), random.NormFloat64(), 0.04 * random.NormFloat64(), 2 * random.NormFloat64()}
		last := energy(m)
		for i := range 100 {
			at := 0.01 * float64(i)
			end, _ := trial.follow(rolling{motion: m}, still, at, at+0.01, kerbStep)
			m = end.motion
			now := energy(m)
			if now > last+1e-6*math.Abs(last) {
				t.Fatalf("energy rises from %g to %g J", last, now)
			}
			last = now
		}
	}
}

func TestBadWindows(t *testing.T) {
	good := linear(t, 2000)
	for name, c := range map[string]struct {
		corner  Corner
		dampers []Damper
	}{
		"no clicks":    {ordinaryCorner(), nil},
		"no damper":    {ordinaryCorner(), []Damper{good, {}}},
		"no tyre rate": {Corner{Sprung: 240, Unsprung: 36, Wheel: 16000}, []Damper{good}},
		"too stiff":    {Corner{Sprung: 240, Unsprung: 1e-9, Wheel: 16000, Tyre: 160000}, []Damper{good}},
	} {
		if _, err := FindWindow(c.corner, c.dampers, Smooth); err == nil {
			t.Errorf("%s: a window", name)
		}
	}
	w, err := FindWindow(ordinaryCorner(), []Damper{good}, Smooth)
	if err != nil || w.Best != 0 || w.From != 0 || w.To != 0 {
		t.Errorf("the window of one click is %+v (%v)", w, err)
	}
	for _, click := range []int{-1, 1} {
		if _, err := w.GivesAway(click); err == nil {
			t.Errorf("click %d gives away something", click)
		}
		if _, err := w.CostsMost(click); err == nil {
			t.Errorf("click %d costs something", click)
		}
	}
}

// BenchmarkWindow is a full window: two axles, 31 positions, all surfaces. It
// fails at 100 ms on one core.
func BenchmarkWindow(b *testing.B) {
	front := ordinaryCorner()
	rear := Corner{Sprung: 220, Unsprung: 38, Wheel: 21000, Tyre: 200000, Relaxation: 0.35}
	axles := map[Corner][]Damper{front: nominals(b, front, 30), rear: nominals(b, rear, 30)}
	before := processorTime(b)
	for b.Loop() {
		for corner, dampers := range axles {
			if _, err := FindWindows(corner, dampers, Surfaces[:]...); err != nil {
				b.Fatal(err)
			}
		}
	}
	atMost(b, before, 100*time.Millisecond)
}

// atMost fails a benchmark whose runs take more of one core, on the mean, since
// the process stood at before. Other programs on the machine do not count.
func atMost(b *testing.B, before, bound time.Duration) {
	b.Helper()
	each := (processorTime(b) - before) / time.Duration(b.N)
	b.ReportMetric(float64(each.Nanoseconds()), "core-ns/op")
	if each > bound {
		b.Errorf("%v of one core a run, more than %v", each, bound)
	}
}

// processorTime is what the process has had of all cores.
func processorTime(b *testing.B) time.Duration {
	b.Helper()
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		b.Fatal(err)
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}

// Nothing is allocated while a corner is stepped.
func TestTrialAllocatesNothing(t *testing.T) {
	hop, err := newTrial(ordinaryCorner(), kneed(t, 1500, 600, 3000, 1200))
	if err != nil {
		t.Fatal(err)
	}
	if n := testing.AllocsPerRun(3, func() { hop.body(); hop.kerb(0.04) }); n != 0 {
		t.Errorf("%g allocations in a body and a kerb", n)
	}
}
