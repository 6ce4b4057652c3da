package figures

import (
	"math"

	"detent/tuning"
	"detent/tuning/unit"
)

// Spread is how far apart the damping of front and rear is, both measured by the
// mean damping ratio of slow movement.
type Spread struct {
	Ratio [tuning.Axles]unit.Ratio
	// Far tells that one is more than 1.5 times the other. The rest is only set
	// then.
	Far     bool
	Harder  tuning.Axle     // the axle that is damped harder
	Turns   tuning.Axle     // the axle to turn so that they come together
	Counted tuning.Adjuster // its adjuster whose clicks are counted; the others turn along
	From    int             // its click today
	To      int             // the click that brings them together, or as near as it can
	Meets   bool            // at that click they are no longer far apart
}

// farApart is how many times one may be the other before front and rear damping
// count as far apart. From memory.
const farApart = 1.5

// Spread compares the damping of both axles at a setting.
func (m Model) Spread(at tuning.Setting) (s Spread, err error) {
	for axle := range tuning.Axle(tuning.Axles) {
		r, err := m.Ratios(axle, ClicksOf(at, axle))
		if err != nil {
			return Spread{}, err
		}
		s.Ratio[axle] = r.Low.Mean
	}
	if s.Ratio[tuning.Rear] > s.Ratio[tuning.Front] {
		s.Harder = tuning.Rear
	}
	if s.Far = apart(s.Ratio[0], s.Ratio[1]) > farApart; !s.Far {
		return s, nil
	}
	// The harder end goes softer; where that is not enough, the other goes stiffer.
	for _, axle := range []tuning.Axle{s.Harder, 1 - s.Harder} {
		if err := s.bringTogether(m, at, axle); err != nil || s.Meets {
			return s, err
		}
	}
	return s, nil
}

// bringTogether finds the click at which an axle's damping comes nearest to the other's.
func (s *Spread) bringTogether(m Model, at tuning.Setting, axle tuning.Axle) error {
	from := ClicksOf(at, axle)
	s.Turns, s.Counted = axle, countedAdjuster(m.car.Dampers[axle])
	s.From = from[s.Counted]
	nearest := math.Inf(1)
	for click := 0; click <= m.car.Dampers[axle].Range[s.Counted]; click++ {
		r, err := m.Ratios(axle, m.Along(axle, from, click))
		if err != nil {
			return err
		}
		if away := apart(r.Low.Mean, s.Ratio[1-axle]); away < nearest {
			nearest, s.To = away, click
		}
	}
	s.Meets = nearest <= farApart
	return nil
}

// apart is how many times the larger of two ratios is the smaller.
func apart(a, b unit.Ratio) float64 { return float64(max(a, b) / max(min(a, b), 1e-9)) }
