package ride

import (
	"cmp"
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/integrate/quad"

	"detent/tuning/unit"
)

// Response is how a corner with a linear damper moves on a rough road: standard
// deviations about the state of rest.
type Response struct {
	Intensity    float64           // S of the road's white velocity, m²/s
	Acceleration unit.Acceleration // of the body
	Travel       unit.Length       // z_s − z_u
	TravelSpeed  unit.Speed        // ż_s − ż_u
	Tyre         unit.Force        // k_t·(z_u − z_r)
}

// Response returns the closed-form answer to white road velocity. With
// M = m_s+m_u:
//
//	acceleration² = S/2·(k_t·c/m_s² + k_w²·M/(m_s²·c))
//	travel²       = S/2·M/c
//	travel speed² = S/2·k_t/c    (what the road puts in, the damper takes out)
//	tyre²         = S/2·(k_t·c·M²/m_s² + tyreShape/c)
func (c Corner) Response(damping unit.Damping, road Road) (Response, error) {
	if err := cmp.Or(c.Check(), unit.Positive("damping", damping), road.Check()); err != nil {
		return Response{}, err
	}
	return c.response(float64(damping), road), nil
}

func (c Corner) response(cs float64, road Road) Response {
	ms, mu, kw, kt := c.numbers()
	total := ms + mu
	s := road.intensity()
	deviation := func(v float64) float64 { return math.Sqrt(s / 2 * v) }
	return Response{
		Intensity:    s,
		Acceleration: unit.Acceleration(deviation((kt*cs + kw*kw*total/cs) / (ms * ms))),
		Travel:       unit.Length(deviation(total / cs)),
		TravelSpeed:  unit.Speed(deviation(kt / cs)),
		Tyre:         unit.Force(deviation(kt*cs*math.Pow(total/ms, 2) + c.tyreShape()/cs)),
	}
}

// tyreShape is the factor of 1/c in the variance of the tyre load,
// k_w²·M³/m_s² − 2·k_w·k_t·m_u·M/m_s + k_t²·m_u, written as a sum of squares.
func (c Corner) tyreShape() float64 {
	ms, mu, kw, kt := c.numbers()
	sag := kw * (ms + mu) / ms
	return mu*(kt-sag)*(kt-sag) + ms*sag*sag
}

// Optimum is the linear damping that suits a corner best on a rough road,
// whatever its class and the speed.
type Optimum struct {
	Tyre         unit.Damping // least variation of the tyre load
	Acceleration unit.Damping // least acceleration of the body, k_w·√(M/k_t)
}

// Optimum returns the dampings at which the variances of Response are least.
func (c Corner) Optimum() (Optimum, error) {
	if err := c.Check(); err != nil {
		return Optimum{}, err
	}
	ms, mu, kw, kt := c.numbers()
	total := ms + mu
	return Optimum{
		Tyre:         unit.Damping(math.Sqrt(c.tyreShape()/kt) * ms / total),
		Acceleration: unit.Damping(kw * math.Sqrt(total/kt)),
	}, nil
}

// The spatial frequencies ISO 8608 speaks of, in cycle/m: waves of 91 m to
// 0.35 m.
const (
	longest  = 0.011
	shortest = 2.83
)

// BandTyre is the deviation of the tyre load from the waves of ISO 8608 alone,
// those of 0.011 to 2.83 cycle/m. It is a little below that of Response, which
// counts waves of every length.
func (c Corner) BandTyre(damping unit.Damping, road Road) (unit.Force, error) {
	if err := cmp.Or(c.Check(), unit.Positive("damping", damping), road.Check()); err != nil {
		return 0, err
	}
	ms, mu, kw, kt := c.numbers()
	// Tyre load over road velocity at s = 2πif, with the road's displacement
	// as the input of both equations of motion.
	density := func(f float64) float64 {
		s := complex(0, 2*math.Pi*f)
		link := s*complex(float64(damping), 0) + complex(kw, 0)
		body := complex(ms, 0)*s*s + link
		wheel := complex(mu, 0)*s*s + link + complex(kt, 0)
		moved := complex(kt, 0) * body / (body*wheel - link*link)
		load := cmplx.Abs(complex(kt, 0)*(moved-1)) / cmplx.Abs(s)
		return load * load
	}
	// Even pieces in log f, so that a narrow peak is met wherever it lies.
	const pieces, points = 128, 8
	v := float64(road.Speed)
	from, step := math.Log(longest*v), math.Log(shortest/longest)/pieces
	var sum float64
	for i := range pieces {
		at := from + float64(i)*step
		sum += quad.Fixed(func(u float64) float64 { f := math.Exp(u); return density(f) * f },
			at, at+step, points, quad.Legendre{}, 0)
	}
	return unit.Force(math.Sqrt(2 * road.intensity() * sum)), nil
}
