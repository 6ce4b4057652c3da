package ride

import (
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
const within = 0.005

// FindWindow compares the dampers of all clicks, softest first, at one corner
// on one surface. The window is the run of clicks around the best whose index
// is within 0.5 % of it.
func FindWindow(c Corner, dampers []Damper, s Surface) (Window, error) {
	if len(dampers) == 0 {
		return Window{}, errors.New("a window needs the damper of at least one click")
	}
	w := Window{Grip: make([]Grip, len(dampers))}
	for click, d := range dampers {
		grip, err := c.Grip(d, s)
		if err != nil {
			return Window{}, fmt.Errorf("click %d: %w", click, err)
		}
		w.Grip[click] = grip
		if grip.Index > w.Grip[w.Best].Index {
			w.Best = click
		}
	}
	if w.Grip[w.Best].Index <= 0 {
		return Window{}, errors.New("this corner has no grip at any click")
	}
	good := w.Grip[w.Best].Index * (1 - within)
	for w.From = w.Best; w.From > 0 && w.Grip[w.From-1].Index >= good; w.From-- {
	}
	for w.To = w.Best; w.To < len(dampers)-1 && w.Grip[w.To+1].Index >= good; w.To++ {
	}
	return w, nil
}

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
