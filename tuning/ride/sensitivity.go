package ride

import "detent/tuning/unit"

// Sensitivity is how much of its side force per load a tyre loses as its load
// rises: s in Y(x) = x·(1+s) − s·x², with x the load over the load at rest.
type Sensitivity float64

// The sensitivities of a tyre that the model is asked with.
//
// Ordinary: two reprinted coefficient sets give 0.070 to 0.123 at 3 to 5 kN; the
// better known, μ_y = 1.011 − 0.0221·F_z[kN], gives 0.096 at 4 kN (see
// TestOrdinarySensitivity). The road tyre 215/55R18 of an open vehicle model (ADTM
// 1.4 by S. Frank, Technical University of Munich) gives 3650 N at 3.5 kN and 6935 N
// at 7 kN, which is 0.05. Steep is twice the ordinary, to see whether an answer hangs
// on it.
const (
	Ordinary Sensitivity = 0.10
	Steep    Sensitivity = 0.20
)

// SideForce is what a tyre can give sideways at a load ratio x = F/F_0, relative
// to its load at rest: Y(x) = x·(1+s) − s·x², and nothing off the ground.
func (s Sensitivity) SideForce(x unit.Ratio) unit.Ratio {
	if x <= 0 {
		return 0
	}
	return x + unit.Ratio(s)*x*(1-x)
}

// mean is a mean side force, which is linear in the sensitivity: one trial
// answers for every tyre.
type mean struct {
	plain float64 // without sensitivity
	bend  float64 // what a sensitivity of one adds
	air   float64 // the part of the time the tyre is off the road
}

func (m mean) at(s Sensitivity) float64 { return m.plain + float64(s)*m.bend }

func (m mean) plus(more mean) mean {
	return mean{m.plain + more.plain, m.bend + more.bend, m.air + more.air}
}

func (m mean) times(f float64) mean { return mean{f * m.plain, f * m.bend, f * m.air} }
