package ride

import (
	"detent/tuning/tuningtest"
	"math"
	"math/rand/v2"
	"testing"
)

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
			tuningtest.Near(t, "body", whole.body().at(Ordinary), half.body().at(Ordinary), 1e-6)
			for _, s := range Surfaces {
				kerb := surfaces[s].kerb
				tuningtest.Near(t, s.String()+" kerb", whole.kerb(kerb).at(Ordinary), half.kerb(kerb).at(Ordinary), map[Surface]float64{Smooth: 1e-6, Bumpy: 3e-5, Rough: 4e-5}[s])
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
