package transfer

import (
	"cmp"
	"math"

	"detent/tuning/ride"
	"detent/tuning/unit"
)

// Run is what a probe does to a car on a flat road.
type Run struct {
	plain, bend [2]float64 // of each axle's capacity, see Capacity
	// FrontShare is the front's part of the load moved from side to side, mean
	// until the cornering has built up; 0 where none is moved.
	FrontShare unit.Share
	Squat      unit.Length // how far the body is down over the rear axle, mean over the run
	Nose       unit.Length // how far it is up over the front axle, mean over the run
	Pitch      unit.Angle  // nose down, mean over the first 0.3 s
	Roll       unit.Angle  // away from the corner, mean over the first 0.3 s
}

// Capacity is the side force an axle could give, ΣY over its load at rest, mean
// over the run, for tyres of some sensitivity.
func (r Run) Capacity(axle int, s ride.Sensitivity) unit.Ratio {
	return unit.Ratio(r.plain[axle] + float64(s)*r.bend[axle])
}

// Balance is what a change does to the balance on a flat road, Δln(C_f/C_r): above
// 0 the front gains.
func Balance(before, after Run, s ride.Sensitivity) float64 {
	ratio := func(r Run) float64 { return float64(r.Capacity(Front, s) / r.Capacity(Rear, s)) }
	return math.Log(ratio(after) / ratio(before))
}

// The step of a run, in s, and how much of the quickest motion of a car it may
// be. It is larger than that of Drive, and the kinks of the dampers are not looked
// for: a quarter of it changes a balance by less than 2e-5, two thousandths of a
// point (TestFinerProbeSteps).
const (
	probeStep     = 5e-3
	probeAccurate = 0.8
)

// Run takes a car through a probe.
func (c Car) Run(p Probe, grip Grip, driven Driven) (Run, error) {
	err := cmp.Or(c.Check(), unit.Between("grip", grip, 0.1, 10), unit.Between("rise", p.Rise, 0.01, 10),
		unit.Between("phase", float64(p.Phase), float64(Entry), float64(Braking)))
	if err != nil {
		return Run{}, err
	}
	return c.run(p, c.manoeuvre(p, grip, driven), 1)
}

// run steps through a manoeuvre, finer times as finely as it must.
func (c Car) run(p Probe, m Manoeuvre, finer float64) (Run, error) {
	chassis := newChassis(c)
	parts := finer * math.Ceil(probeStep*chassis.quickest()/probeAccurate)
	steps := int(math.Round(p.watched() / probeStep * parts))
	if float64(steps) > patience/10 {
		return Run{}, errStiff
	}
	h := probeStep / parts
	var x state
	ay, ax := m.Lateral.lineFrom(0), m.Longitudinal.lineFrom(0)
	if m.Settled {
		x = c.settled(ay.at(0), ax.at(0))
	}
	sums := tally{car: chassis, static: c.staticLoads(), rise: float64(p.Rise)}
	sums.add(&x, 0, 0.5)
	for i := 1; i <= steps; i++ {
		from, to := float64(i-1)*h, float64(i)*h
		if from >= ay.until-h/2 {
			ay = m.Lateral.lineFrom(from + h/2)
		}
		if from >= ax.until-h/2 {
			ax = m.Longitudinal.lineFrom(from + h/2)
		}
		chassis.step(&x, &ay, &ax, from, h)
		weight := 1.0
		if i == steps {
			weight = 0.5
		}
		sums.add(&x, to, weight)
	}
	return sums.run(), nil
}

// tally adds up a run.
type tally struct {
	car           *chassis
	static        [4]unit.Force
	rise          float64
	all, early    float64 // weights so far
	plain, bend   [2]float64
	moved         [2]float64
	squat, nose   float64
	pitched, lean float64
}

func (t *tally) add(x *state, at, weight float64) {
	t.all += weight
	for i := range 4 {
		axle := &t.car.axle[i/2]
		load := float64(t.static[i])
		ratio := max(0, 1-axle.tyre*x[wheel+i]/load)
		t.plain[i/2] += weight / 2 * ratio
		t.bend[i/2] += weight / 2 * ratio * (1 - ratio)
		if at <= t.rise {
			t.moved[i/2] += weight * float64(2*(i%2)-1) * -axle.tyre * x[wheel+i]
		}
	}
	t.nose += weight * (x[heave] - t.car.axle[Front].x*x[pitch])
	t.squat -= weight * (x[heave] - t.car.axle[Rear].x*x[pitch])
	if at <= onset {
		t.early += weight
		t.pitched += weight * x[pitch]
		t.lean += weight * x[roll]
	}
}

func (t *tally) run() Run {
	r := Run{
		Squat: unit.Length(t.squat / t.all),
		Nose:  unit.Length(t.nose / t.all),
		Pitch: unit.Angle(t.pitched / t.early),
		Roll:  unit.Angle(t.lean / t.early),
	}
	for axle := range 2 {
		r.plain[axle], r.bend[axle] = t.plain[axle]/t.all, t.bend[axle]/t.all
	}
	if moved := t.moved[Front] + t.moved[Rear]; math.Abs(moved) > negligible {
		r.FrontShare = unit.Share(t.moved[Front] / moved)
	}
	return r
}
