package ride

import (
	"cmp"
	"math"

	"detent/tuning/unit"
)

// Corner is one wheel and the share of the body it carries.
type Corner struct {
	Sprung   unit.Mass
	Unsprung unit.Mass
	Wheel    unit.Stiffness // of the spring, at the wheel
	Tyre     unit.Stiffness
	// Relaxation is how far the tyre rolls until its side force has answered a
	// changed load (to 1 − 1/e); 0 for a tyre that answers at once.
	Relaxation unit.Length
}

// Check returns an error naming the first figure that is not physical.
func (c Corner) Check() error {
	return cmp.Or(
		unit.Positive("sprung mass", c.Sprung),
		unit.Positive("unsprung mass", c.Unsprung),
		unit.Positive("wheel rate", c.Wheel),
		unit.Positive("tyre rate", c.Tyre),
		unit.NotNegative("relaxation length", c.Relaxation),
	)
}

// numbers hands out the bare figures for a formula: m_s, m_u, k_w, k_t.
func (c Corner) numbers() (ms, mu, kw, kt float64) {
	return float64(c.Sprung), float64(c.Unsprung), float64(c.Wheel), float64(c.Tyre)
}

// weight is the tyre load at rest, (m_s+m_u)·g.
func (c Corner) weight() float64 {
	return float64(c.Sprung+c.Unsprung) * float64(unit.Gravity)
}

// Frequencies are the undamped natural frequencies of a corner.
type Frequencies struct {
	Wheel unit.Frequency // body on the wheel rate alone, √(k_w/m_s)/2π
	Ride  unit.Frequency // body on wheel and tyre rate in series, √(k_r/m_s)/2π
	Hop   unit.Frequency // wheel between spring and tyre, √((k_w+k_t)/m_u)/2π
	Low   unit.Frequency // the lower exact frequency of both masses together
	High  unit.Frequency // the upper one
}

// Frequencies returns the corner's natural frequencies.
func (c Corner) Frequencies() (Frequencies, error) {
	if err := c.Check(); err != nil {
		return Frequencies{}, err
	}
	ms, mu, kw, kt := c.numbers()
	// m_s·m_u·ω⁴ − (m_s·(k_w+k_t) + m_u·k_w)·ω² + k_w·k_t = 0, with the
	// discriminant as a sum of squares, and the smaller root from the product of
	// both: neither loses digits.
	body, wheel := mu*kw, ms*(kw+kt)
	root := math.Hypot(wheel-body, 2*kw*math.Sqrt(ms*mu))
	high := (wheel + body + root) / (2 * ms * mu)
	low := kw * kt / (ms * mu) / high
	return Frequencies{
		Wheel: hertz(kw / ms),
		Ride:  hertz(c.series() / ms),
		Hop:   hertz((kw + kt) / mu),
		Low:   hertz(low),
		High:  hertz(high),
	}, nil
}

// hertz turns a squared angular frequency, 1/s², into a frequency.
func hertz(squared float64) unit.Frequency {
	return unit.Frequency(math.Sqrt(squared) / (2 * math.Pi))
}

// series is the ride rate: wheel and tyre rate in series.
func (c Corner) series() float64 {
	_, _, kw, kt := c.numbers()
	return kw * kt / (kw + kt)
}

// Critical is the damping at which the body on its wheel rate alone would just
// not swing, 2√(k_w·m_s).
func (c Corner) Critical() (unit.Damping, error) {
	if err := c.Check(); err != nil {
		return 0, err
	}
	return c.critical(), nil
}

func (c Corner) critical() unit.Damping {
	ms, _, kw, _ := c.numbers()
	return unit.Damping(2 * math.Sqrt(kw*ms))
}

// SimpleRatios are the damping ratios of the usual one-mass formulas. They are
// rules of thumb: the exact ones are those of Modes.
type SimpleRatios struct {
	Body unit.Ratio // c/(2√(k_w·m_s))
	Ride unit.Ratio // c/(2√(k_r·m_s))
	Hop  unit.Ratio // c/(2√((k_w+k_t)·m_u))
}

// SimpleRatios returns the one-mass damping ratios for a linear damper.
func (c Corner) SimpleRatios(damping unit.Damping) (SimpleRatios, error) {
	if err := cmp.Or(c.Check(), unit.Positive("damping", damping)); err != nil {
		return SimpleRatios{}, err
	}
	ms, mu, kw, kt := c.numbers()
	ratio := func(k, m float64) unit.Ratio {
		return unit.Ratio(float64(damping) / (2 * math.Sqrt(k*m)))
	}
	return SimpleRatios{
		Body: ratio(kw, ms),
		Ride: ratio(c.series(), ms),
		Hop:  ratio(kw+kt, mu),
	}, nil
}
