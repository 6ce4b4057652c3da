package ride

import (
	"cmp"
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"

	"detent/tuning/unit"
)

// Step is how the body answers something sudden, as a part of the way it has to
// go.
type Step struct {
	Overshoot unit.Ratio   // farthest beyond the final place; 0 if never beyond
	Peak      unit.Seconds // when it is farthest; 0 if never beyond
	Settled   unit.Seconds // after this it stays within 2 % of the way
}

// settleBand is the part of the way within which a step counts as settled.
const settleBand = 0.02

// RoadStep is the answer of the body to a sudden step of the road, with a
// linear damper and a tyre that stays on the ground.
func (c Corner) RoadStep(damping unit.Damping) (Step, error) {
	return c.step(damping, vector{0, 0, -1, 0})
}

// ForceStep is the answer of the body to a sudden steady force on it. The way
// it goes is that force over the ride rate.
func (c Corner) ForceStep(damping unit.Damping) (Step, error) {
	ride := c.series()
	return c.step(damping, vector{-ride / float64(c.Wheel), 0, -ride / float64(c.Tyre), 0})
}

// vector is a state of the corner, as deviation from where it will come to rest.
type vector [4]float64

// body is the place of the body, z_s = (z_s−z_u) + (z_u−z_r).
func (x vector) body() float64 { return x[0] + x[2] }

// speed is the speed of the body.
func (x vector) speed() float64 { return x[1] }

// steps is the number of steps in a period of the corner's quickest motion, and
// patience the number after which a body that still swings is given up.
const (
	steps    = 32
	patience = 1 << 18
)

// errRestless means that the end of a step is too far off to be seen.
var errRestless = errors.New("with this damping the body does not come to rest in any useful time")

// step follows the free motion from the given start, exactly: each step is the
// matrix exponential of the system, and peaks and crossings are found inside a
// step by halving it.
func (c Corner) step(damping unit.Damping, start vector) (Step, error) {
	if err := cmp.Or(c.Check(), unit.Positive("damping", damping)); err != nil {
		return Step{}, err
	}
	flow := newFlow(c.system(damping), 2*math.Pi/c.quickest(damping)/steps)
	var answer Step
	x, now := start, 0.0
	for range patience {
		if c.energyBound(x) < settleBand {
			return answer, nil
		}
		next := flow.whole(x)
		if x.speed() > 0 != (next.speed() > 0) { // a turning point: stop there first
			rising := x.speed() > 0
			part, turned := flow.last(x, func(y vector) bool { return y.speed() > 0 == rising })
			answer.note(now, part, x, turned, flow)
			answer.note(now+part, flow.length-part, turned, next, flow)
		} else {
			answer.note(now, flow.length, x, next, flow)
		}
		x, now = next, now+flow.length
	}
	return Step{}, errRestless
}

// note takes in one stretch of the motion without a turning point inside.
func (s *Step) note(begin, length float64, from, to vector, flow flow) {
	if over := unit.Ratio(to.body()); over > s.Overshoot {
		s.Overshoot, s.Peak = over, unit.Seconds(begin+length)
	}
	outside := func(x vector) bool { return math.Abs(x.body()) > settleBand }
	if outside(from) && !outside(to) {
		part, _ := flow.last(from, outside)
		s.Settled = unit.Seconds(begin + part)
	}
}

// quickest bounds the fastest rate in the free motion, 1/s.
func (c Corner) quickest(damping unit.Damping) float64 {
	ms, mu, kw, kt := c.numbers()
	return math.Sqrt((kw+kt)/mu+kw/ms) + float64(damping)*(1/mu+1/ms)
}

// energyBound bounds how far the body can still get from its place: nothing
// feeds the motion, and no split of the energy E between the springs moves the
// body farther than √(2E/k_r).
func (c Corner) energyBound(x vector) float64 {
	ms, mu, kw, kt := c.numbers()
	twice := kw*x[0]*x[0] + ms*x[1]*x[1] + kt*x[2]*x[2] + mu*x[3]*x[3]
	return math.Sqrt(twice / c.series())
}

// flow moves states of a linear system on in time: by its length, and by the
// half, the quarter, ... of it.
type flow struct {
	length float64
	parts  []*mat.Dense // exp(A·length/2^i)
}

// halvings makes the smallest part of a step smaller than a double can tell.
const halvings = 48

func newFlow(system *mat.Dense, length float64) flow {
	f := flow{length: length, parts: make([]*mat.Dense, halvings+1)}
	for i := range f.parts {
		var scaled, part mat.Dense
		scaled.Scale(math.Ldexp(length, -i), system)
		part.Exp(&scaled)
		f.parts[i] = &part
	}
	return f
}

func (f flow) whole(x vector) vector { return times(f.parts[0], x) }

// last returns the last moment inside a step at which the condition holds, and
// the state then. It must hold at x, and change once.
func (f flow) last(x vector, holds func(vector) bool) (float64, vector) {
	at := 0.0
	for i, part := range f.parts[1:] {
		if next := times(part, x); holds(next) {
			x, at = next, at+math.Ldexp(f.length, -i-1)
		}
	}
	return at, x
}

func times(m *mat.Dense, x vector) (y vector) {
	raw := m.RawMatrix().Data
	for i := range y {
		for j := range x {
			y[i] += raw[4*i+j] * x[j]
		}
	}
	return y
}
