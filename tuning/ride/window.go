package ride

import (
	"cmp"
	"errors"
	"fmt"

	"detent/tuning/unit"
)

// Window is where the good settings of one corner lie. Clicks count from full
// soft.
type Window struct {
	Grip []Grip // one for each click
	Best int    // the click with the highest index
	From int    // the softest and the hardest click of the window around it
	To   int
}

// within is how far below the best a click of the window may lie.
const within = 0.002

// FindWindow compares the dampers of all clicks, softest first, at one corner
// on one surface. The window is the run of clicks around the best whose index
// is within 0.2 % of it.
func FindWindow(c Corner, dampers []Damper, s Surface) (Window, error) {
	windows, err := FindWindows(c, dampers, s)
	if err != nil {
		return Window{}, err
	}
	return windows[0], nil
}

// FindWindows is FindWindow on several surfaces, in their order: what the body
// does is the same on all of them and worked out once.
func FindWindows(c Corner, dampers []Damper, on ...Surface) ([]Window, error) {
	if len(dampers) == 0 {
		return nil, errors.New("a window needs the damper of at least one click")
	}
	windows := make([]Window, len(on))
	for i := range windows {
		windows[i].Grip = make([]Grip, len(dampers))
	}
	for click, d := range dampers {
		if err := cmp.Or(c.Check(), d.Check()); err != nil {
			return nil, fmt.Errorf("click %d: %w", click, err)
		}
		hop, err := newTrial(c, d)
		if err != nil {
			return nil, fmt.Errorf("click %d: %w", click, err)
		}
		body := hop.body().at(Ordinary)
		for i, s := range on {
			windows[i].Grip[click] = c.gripOn(d, s, hop, body)
		}
	}
	for i := range windows {
		if err := windows[i].find(); err != nil {
			return nil, err
		}
	}
	return windows, nil
}

// find sets the best click and the window around it.
func (w *Window) find() error {
	for click, g := range w.Grip {
		if g.Index > w.Grip[w.Best].Index {
			w.Best = click
		}
	}
	if w.Grip[w.Best].Index <= 0 {
		return errors.New("this corner has no grip at any click")
	}
	good := w.Grip[w.Best].Index * (1 - within)
	for w.From = w.Best; w.From > 0 && w.Grip[w.From-1].Index >= good; w.From-- {
	}
	for w.To = w.Best; w.To < len(w.Grip)-1 && w.Grip[w.To+1].Index >= good; w.To++ {
	}
	return nil
}

// Level tells whether the model hardly tells the clicks apart: the whole range
// lies inside the window.
func (w Window) Level() bool { return w.From == 0 && w.To == len(w.Grip)-1 }

// AtStop tells whether the grip still rises at a stop, so that there is no peak
// inside the range.
func (w Window) AtStop() bool { return w.Best == 0 || w.Best == len(w.Grip)-1 }

// Contains tells whether a click lies inside the window.
func (w Window) Contains(click int) bool { return w.From <= click && click <= w.To }

// GivesAway is the part of the best index that a click lacks.
func (w Window) GivesAway(click int) (unit.Share, error) {
	if err := w.check(click); err != nil {
		return 0, err
	}
	return unit.Share(1 - w.Grip[click].Index/w.Grip[w.Best].Index), nil
}

// Trial names one of the three parts of a grip.
type Trial int

const (
	None Trial = iota
	RoadTrial
	BodyTrial
	KerbTrial
)

// String is the word the trial goes by.
func (t Trial) String() string { return [...]string{"none", "road", "body", "kerb"}[t] }

// CostsMost is the trial in which a click lacks most against the best click, or
// None where it lacks nothing.
func (w Window) CostsMost(click int) (Trial, error) {
	if err := w.check(click); err != nil {
		return None, err
	}
	today, best := w.Grip[click], w.Grip[w.Best]
	costs, least := None, unit.Ratio(1)
	for _, part := range []struct {
		trial Trial
		kept  unit.Ratio
	}{
		{RoadTrial, today.Road / best.Road},
		{BodyTrial, today.Body / best.Body},
		{KerbTrial, today.Kerb / best.Kerb},
	} {
		if part.kept < least {
			costs, least = part.trial, part.kept
		}
	}
	return costs, nil
}

func (w Window) check(click int) error {
	if click < 0 || click >= len(w.Grip) {
		return fmt.Errorf("click %d lies outside 0 to %d", click, len(w.Grip)-1)
	}
	return nil
}
