package ride

import (
	"cmp"
	"math"

	"detent/tuning/unit"
)

// Unrest is what rough ground does to the load of a corner's tyre. With ε the
// tyre's load over its load at rest, less one:
type Unrest struct {
	Load float64 // Var ε
	Lag  float64 // L, the part of its mean side force that a tyre which answers late loses
}

// Unrest returns the closed form for a linear damper on white road velocity.
//
// A tyre whose side force is carried by the deflection w of its contact patch,
// ẇ = v·(1 − w/σ(F)) with σ and the cornering stiffness in proportion to the load
// F, loses to second order L = Var[ε_h] of its mean side force at constant slip,
// where ε_h is ε through the high pass τp/(1+τp), τ = σ/v. Derived for this
// program and confirmed against a time simulation of the deflection equation; no
// published source.
func (c Corner) Unrest(damping unit.Damping, road Road) (Unrest, error) {
	if err := cmp.Or(c.Check(), unit.Positive("damping", damping), road.Check()); err != nil {
		return Unrest{}, err
	}
	return c.unrest(float64(damping), road), nil
}

func (c Corner) unrest(cs float64, road Road) Unrest {
	load := float64(c.response(cs, road).Tyre) / c.weight()
	return Unrest{Load: load * load, Lag: c.lag(cs, road)}
}

// lag is Var[ε_h]. From the equations of motion the tyre load answers the road's
// velocity by
//
//	F/w = −k_t·p·(m_s·m_u·p² + M·c·p + M·k_w) / D
//	D   = m_s·m_u·p⁴ + M·c·p³ + (m_s·(k_w+k_t) + m_u·k_w)·p² + k_t·c·p + k_w·k_t
//
// to which the high pass adds a factor above and below. Time is counted in
// periods of the wheel, so that the coefficients are of like size.
func (c Corner) lag(cs float64, road Road) float64 {
	if c.Relaxation == 0 {
		return 0
	}
	ms, mu, kw, kt := c.numbers()
	total, quick := ms+mu, math.Sqrt((kw+kt)/mu)
	tau := float64(c.Relaxation) / float64(road.Speed) * quick
	// D, divided by m_s·m_u and with p in units of quick.
	d := [5]float64{
		1,
		total * cs / (ms * mu) / quick,
		(ms*(kw+kt) + mu*kw) / (ms * mu) / (quick * quick),
		kt * cs / (ms * mu) / (quick * quick * quick),
		kw * kt / (ms * mu) / (quick * quick * quick * quick),
	}
	gain := kt * tau / (c.weight() * quick) // 1/quick: D has one power of p more
	above := [5]float64{gain, gain * d[1], gain * total * kw / (ms * mu) / (quick * quick), 0, 0}
	below := [6]float64{tau, 1 + tau*d[1], d[1] + tau*d[2], d[2] + tau*d[3], d[3] + tau*d[4], d[4]}
	return road.intensity() * quick * whiteVariance(above, below)
}

// whiteVariance is the variance of white noise of intensity one behind the stable
// filter B(p)/A(p), coefficients from the highest power down:
// (1/2πi)·∫ B(p)·B(−p)/(A(p)·A(−p)) dp along the imaginary axis. Each pass takes
// the last term of a chain of integrators off the filter, as in Routh's array
// (K. J. Åström, Introduction to Stochastic Control Theory, 1970, ch. 5; from
// memory, and held against a Lyapunov equation).
func whiteVariance(b [5]float64, a [6]float64) float64 {
	var sum float64
	for n := 5; n > 0; n-- {
		alpha, beta := a[0]/a[1], b[0]/a[1]
		sum += beta * beta / (2 * alpha)
		// Even places of the next row are those of this one, one to the left; odd
		// ones lose the product.
		var nextA [6]float64
		var nextB [5]float64
		for i := range n {
			nextA[i] = a[i+1]
			if i%2 == 1 && i+2 <= n {
				nextA[i] -= alpha * a[i+2]
			}
			if i < n-1 {
				nextB[i] = b[i+1]
				if i%2 == 1 {
					nextB[i] -= beta * a[i+2]
				}
			}
		}
		a, b = nextA, nextB
	}
	return sum
}
