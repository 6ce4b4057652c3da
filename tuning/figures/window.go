package figures

import (
	"math"

	"detent/tuning"
	"detent/tuning/ride"
	"detent/tuning/unit"
)

// Window is where the good settings of an axle lie. All adjusters of the axle
// turn together, each by the same part of its range, and the clicks are counted
// on one of them.
type Window struct {
	ride.Window
	Surface   tuning.Surface
	Counted   tuning.Adjuster // the adjuster that Best, From, To and Today are clicks of
	Today     int
	GivesAway unit.Share // of the best grip, today
	CostsMost ride.Trial // in which most of that is lost
}

// Advises tells whether there is a window to be drawn or advised: the model tells
// the clicks apart.
func (w Window) Advises() bool { return !w.Level() }

// The lap by which a loss of grip is told in seconds, and the part of it that is
// cornering. From memory; no published source was found.
const (
	lap       = unit.Seconds(90)
	cornering = 0.5
)

// Costs is about what today's click loses in a lap of 90 s that is cornering for
// half its time, where time goes with 1/√grip. An estimate.
func (w Window) Costs() unit.Seconds { return lapTime(w.GivesAway) }

func lapTime(lost unit.Share) unit.Seconds {
	return lap * cornering * unit.Seconds(1/math.Sqrt(max(1e-6, 1-float64(lost)))-1)
}

// surfaces pairs the surfaces of the conversation with those of the model.
var surfaces = [...]struct {
	said   tuning.Surface
	ground ride.Surface
}{{tuning.Smooth, ride.Smooth}, {tuning.Bumpy, ride.Bumpy}, {tuning.Rough, ride.Rough}}

// Window returns the window of an axle on a surface; an unknown surface counts as
// smooth. Today's click is exactly the given one; the others turn the axle's
// adjusters together from there.
func (m Model) Window(axle tuning.Axle, at Clicks, surface tuning.Surface) (Window, error) {
	ground := ride.Smooth
	for _, s := range surfaces {
		if s.said == surface {
			ground = s.ground
		}
	}
	found, err := m.windows(axle, at, ground)
	if err != nil {
		return Window{}, err
	}
	return found[0], nil
}

// Windows are the windows of an axle on all surfaces, smoothest first.
func (m Model) Windows(axle tuning.Axle, at Clicks) ([]Window, error) {
	return m.windows(axle, at, ride.Surfaces[:]...)
}

func (m Model) windows(axle tuning.Axle, at Clicks, grounds ...ride.Surface) ([]Window, error) {
	if _, err := m.Damper(axle, at); err != nil {
		return nil, err
	}
	fitted := m.car.Dampers[axle]
	main := countedAdjuster(fitted)
	dampers := make([]ride.Damper, fitted.Range[main]+1)
	for click := range dampers {
		var err error
		if dampers[click], err = m.Damper(axle, m.Along(axle, at, click)); err != nil {
			return nil, err
		}
	}
	found, err := ride.FindWindows(m.corners[axle], dampers, grounds...)
	if err != nil {
		return nil, cannotAt(axle, err, FindWindow)
	}
	windows := make([]Window, len(found))
	for i, f := range found {
		w := Window{Window: f, Surface: surfaces[grounds[i]].said, Counted: main, Today: at[main]}
		if w.GivesAway, err = f.GivesAway(w.Today); err != nil {
			return nil, cannot(err, PlaceClick)
		}
		w.GivesAway = min(w.GivesAway, 1) // on absurd figures the index can fall below zero
		if w.CostsMost, err = f.CostsMost(w.Today); err != nil {
			return nil, cannot(err, PlaceClick)
		}
		windows[i] = w
	}
	return windows, nil
}

// Loses is about how much of the best grip an axle's measured damper gives away
// on a smooth track today. It compares a few clicks on the way to the peak, which
// costs far less than a window. It is 0 for an axle without a force table, whose
// damper nobody knows well enough.
func (m Model) Loses(axle tuning.Axle, at Clicks) (unit.Share, error) {
	if m.tables[axle] == nil {
		return 0, nil
	}
	main := countedAdjuster(m.car.Dampers[axle])
	known := map[int]unit.Ratio{}
	grip := func(click int) (unit.Ratio, error) {
		if g, done := known[click]; done {
			return g, nil
		}
		damper, err := m.Damper(axle, m.Along(axle, at, click))
		if err != nil {
			return 0, err
		}
		g, err := m.corners[axle].Grip(damper, ride.Smooth)
		known[click] = g.Index
		return g.Index, cannot(err, CompareGrip)
	}
	today, err := grip(at[main])
	if err != nil {
		return 0, err
	}
	best := today
	const golden = 0.382
	for low, high := 0, m.car.Dampers[axle].Range[main]; high-low > 1; {
		left := low + int(golden*float64(high-low))
		right := max(high-int(golden*float64(high-low)), left+1)
		softer, err := grip(left)
		if err != nil {
			return 0, err
		}
		harder, err := grip(right)
		if err != nil {
			return 0, err
		}
		best = max(best, softer, harder)
		if softer >= harder {
			high = right - 1
		} else {
			low = left + 1
		}
	}
	return unit.Share(1 - today/best), nil
}

// Inside is the click inside the window that is nearest to today's, on the soft
// side of the best.
func (w Window) Inside() int { return min(max(w.Today, w.From), w.Best) }

// countedAdjuster is the adjuster that the clicks of a window are counted on: that of
// bump in slow movement, otherwise the single one.
func countedAdjuster(d tuning.Damper) tuning.Adjuster {
	low, _, ok := adjustersTurning(d, inBump)
	if !ok {
		return tuning.Rebound
	}
	return low
}

// Along moves all adjusters of an axle together until the counted one stands at
// a click: each by the same part of its range, none past its stop.
func (m Model) Along(axle tuning.Axle, at Clicks, click int) Clicks {
	return m.along(axle, at, countedAdjuster(m.car.Dampers[axle]), click)
}

// along is Along with the clicks counted on any adjuster.
func (m Model) along(axle tuning.Axle, at Clicks, main tuning.Adjuster, click int) Clicks {
	fitted := m.car.Dampers[axle]
	moved := click - at[main]
	for _, a := range fitted.Adjusters() {
		n := fitted.Range[a]
		at[a] = min(max(at[a]+divideRounded(moved*n, fitted.Range[main]), 0), n)
	}
	return at
}

// divideRounded is a/b to the nearest whole number, halves away from zero.
func divideRounded(a, b int) int {
	if a < 0 {
		return -divideRounded(-a, b)
	}
	return (2*a + b) / (2 * b)
}
