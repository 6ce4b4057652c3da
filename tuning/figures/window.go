package figures

import (
	"detent/tuning"
	"detent/tuning/ride"
	"detent/tuning/unit"
)

// Window is where the good settings of an axle lie. All adjusters of the axle
// turn together, each by the same part of its range, and the clicks are counted
// on one of them.
type Window struct {
	ride.Window
	Counted   tuning.Adjuster // the adjuster that Best, From, To and Today are clicks of
	Today     int
	GivesAway unit.Share // of the best grip, today
	CostsMost ride.Trial // in which most of that is lost
}

// Window returns the window of an axle on a surface. Today's click is exactly
// the given one; the others turn the axle's adjusters together from there.
func (m Model) Window(axle tuning.Axle, at Clicks, surface tuning.Surface) (Window, error) {
	if _, err := m.Damper(axle, at); err != nil {
		return Window{}, err
	}
	fitted := m.car.Dampers[axle]
	w := Window{Counted: counted(fitted)}
	w.Today = at[w.Counted]
	dampers := make([]ride.Damper, fitted.Range[w.Counted]+1)
	for click := range dampers {
		var err error
		if dampers[click], err = m.Damper(axle, m.Along(axle, at, click)); err != nil {
			return Window{}, err
		}
	}
	found, err := ride.FindWindow(m.corners[axle], dampers, groundOf(surface))
	if err != nil {
		return Window{}, cannot(err, "find the "+axle.String()+" window")
	}
	w.Window = found
	if w.GivesAway, err = found.GivesAway(w.Today); err == nil {
		w.GivesAway = min(w.GivesAway, 1) // on absurd figures the index can fall below zero
		w.CostsMost, err = found.CostsMost(w.Today)
	}
	return w, cannot(err, "place today's click in the window")
}

// Inside is the click inside the window that is nearest to today's, on the soft
// side of the best.
func (w Window) Inside() int { return min(max(w.Today, w.From), w.Best) }

// counted is the adjuster that the clicks of a window are counted on: that of
// bump in slow movement, otherwise the single one.
func counted(d tuning.Damper) tuning.Adjuster {
	low, _, ok := turned(d, inBump)
	if !ok {
		return tuning.Rebound
	}
	return low
}

// Along moves all adjusters of an axle together until the counted one stands at
// a click: each by the same part of its range, none past its stop.
func (m Model) Along(axle tuning.Axle, at Clicks, click int) Clicks {
	fitted := m.car.Dampers[axle]
	main := counted(fitted)
	moved := click - at[main]
	for _, a := range fitted.Adjusters() {
		n := fitted.Range[a]
		at[a] = min(max(at[a]+rounded(moved*n, fitted.Range[main]), 0), n)
	}
	return at
}

// rounded is a/b to the nearest whole number, halves away from zero.
func rounded(a, b int) int {
	if a < 0 {
		return -rounded(-a, b)
	}
	return (2*a + b) / (2 * b)
}

func groundOf(s tuning.Surface) ride.Surface {
	if s == tuning.Bumpy {
		return ride.Bumpy
	}
	return ride.Smooth
}
