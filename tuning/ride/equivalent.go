package ride

import (
	"cmp"
	"math"

	"detent/tuning/unit"
)

// Equivalent is the linear damping that takes the same power as the damper when
// the corner rides that road: statistical linearisation. With the travel speed
// normal, c_eq = E[F(v)·v]/σ_v², which is E[F′(v)] by partial integration, and
// the corner's own σ_v for that damping must be the one assumed.
func (c Corner) Equivalent(d Damper, road Road) (unit.Damping, error) {
	if err := cmp.Or(c.Check(), d.Check(), road.Check()); err != nil {
		return 0, err
	}
	return unit.Damping(c.equivalent(d, road)), nil
}

// equivalent bisects between no damping and the steepest slope: the expected
// slope less the assumed one falls from positive to negative in between.
func (c Corner) equivalent(d Damper, road Road) float64 {
	low, high := 0.0, float64(d.Steepest())
	energy := road.intensity() / 2 * float64(c.Tyre) // σ_v²·c, see Response
	for high-low > 1e-13*high {
		middle := low + (high-low)/2
		if middle == low || middle == high {
			break
		}
		if d.expectedSlope(math.Sqrt(energy/middle)) > middle {
			low = middle
		} else {
			high = middle
		}
	}
	return low + (high-low)/2
}

// expectedSlope is E[F′(v)] for normal v of the given deviation.
func (d Damper) expectedSlope(deviation float64) float64 {
	return (d.bump.expectedSlope(deviation) + d.rebound.expectedSlope(deviation)) / 2
}

// expectedSlope adds up what each piece changes of the slope times the chance
// that |v| lies beyond its start.
func (c curve) expectedSlope(deviation float64) float64 {
	var sum, before float64
	for _, p := range c {
		sum += (p.slope - before) * math.Erfc(p.from/(deviation*math.Sqrt2))
		before = p.slope
	}
	return sum
}

// MeanForce is the mean force of the damper for a normal speed of the given
// deviation, E[F(v)]: below zero where it holds back more in rebound.
func (d Damper) MeanForce(deviation unit.Speed) unit.Force {
	return unit.Force((d.bump.meanForce(float64(deviation)) - d.rebound.meanForce(float64(deviation))) / 2)
}

// meanForce is E[F(|v|)]: each change of slope at a speed a adds
// E[(|v|−a)⁺] = 2·(σ·φ(a/σ) − a·(1−Φ(a/σ))) of it.
func (c curve) meanForce(deviation float64) float64 {
	var sum, before float64
	for _, p := range c {
		u := p.from / deviation
		beyond := 2*deviation*math.Exp(-u*u/2)/math.Sqrt(2*math.Pi) - p.from*math.Erfc(u/math.Sqrt2)
		sum += (p.slope - before) * beyond
		before = p.slope
	}
	return sum
}
