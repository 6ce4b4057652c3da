package tuning

import (
	"cmp"
	"slices"
	"strings"
	"time"
)

// CarSeason is what the record holds of a car over a year.
type CarSeason struct {
	From, To time.Time // the year, without To
	Changes  []Change  // oldest first
	Feels    []Feel    // oldest first
	Notes    []CarNote // oldest first
	Events   []Event   // that the car was entered in or recorded at, soonest first

	Before  []Move           // where adjusters stood as the year began, as moves to there from -1
	Fitted  [Axles]time.Time // when the dampers of today were fitted, zero where none are known
	Earlier time.Time        // the last of the record before the year, zero for none
	Later   time.Time        // the first of the record after it, zero for none
}

// Turned counts the changes of the year that turned something. A fitting and a
// correction of the record do not.
func (s CarSeason) Turned() (n int) {
	for _, c := range s.Changes {
		if c.Turns() {
			n++
		}
	}
	return n
}

// Empty tells whether nothing was turned, felt or noted in the year.
func (s CarSeason) Empty() bool { return s.Turned() == 0 && len(s.Feels) == 0 && len(s.Notes) == 0 }

// Turns tells whether the change turned an adjuster on the car.
func (c Change) Turns() bool {
	return c.Reason != ByFitting && !c.Corrects() && slices.ContainsFunc(c.Moves, func(m Move) bool { return m.From != m.To })
}

// Lane is where one adjuster of an axle stood over a year.
type Lane struct {
	Axle     Axle
	Adjuster Adjuster
	Steps    []Step // oldest first
}

// Step is where the two sides of an adjuster stand from a change on, in clicks
// from full soft.
type Step struct {
	Change      int // its place in the year's changes, -1 as the year began
	Left, Right int
}

// Turned tells whether the adjuster stood anywhere else in the year.
func (l Lane) Turned() bool { return len(l.Steps) > 1 }

// Replaced tells whether an axle had other dampers in the year, or as it began,
// than it has today.
func (s CarSeason) Replaced(axle Axle) bool {
	on := func(m Move) bool { return m.Corner.Axle() == axle }
	return slices.ContainsFunc(s.Before, on) && !s.Fitted[axle].Before(s.From) ||
		slices.ContainsFunc(s.Changes, func(c Change) bool { return c.fits(axle) && c.At.Before(s.Fitted[axle]) })
}

// fits tells whether the change fitted dampers to an axle.
func (c Change) fits(axle Axle) bool {
	return c.Reason == ByFitting && slices.ContainsFunc(c.Moves, func(m Move) bool { return m.Corner.Axle() == axle })
}

// Lanes are the adjusters of the dampers that the car has today, axle by axle in
// the order shown, from the fitting of those dampers on. An axle whose dampers
// came after the year has none, for its clicks of then were those of others.
func (s CarSeason) Lanes(car Car) []Lane {
	var lanes []Lane
	for axle, d := range car.Dampers {
		for _, a := range d.Adjusters() {
			if lane := s.lane(Axle(axle), a); len(lane.Steps) > 0 {
				lanes = append(lanes, lane)
			}
		}
	}
	return lanes
}

func (s CarSeason) lane(axle Axle, a Adjuster) Lane {
	lane := Lane{Axle: axle, Adjuster: a}
	if !s.Fitted[axle].Before(s.To) {
		return lane
	}
	lane.step(-1, s.Before)
	for i, c := range s.Changes {
		if c.fits(axle) {
			lane.Steps = nil
		}
		lane.step(i, c.Moves)
	}
	return lane
}

// step adds where moves leave the adjuster, unless they leave it where it stood.
func (l *Lane) step(change int, moves []Move) {
	at, known := Step{Change: change}, len(l.Steps) > 0
	if known {
		at.Left, at.Right = l.Steps[len(l.Steps)-1].Left, l.Steps[len(l.Steps)-1].Right
	}
	was := at
	for _, m := range moves {
		if m.Adjuster != l.Adjuster || m.Corner.Axle() != l.Axle {
			continue
		}
		side := &at.Left
		if m.Corner == l.Axle.Corners()[1] {
			side = &at.Right
		}
		*side = m.To
		if !known {
			known, was.Left = true, -1 // differs from any place
		}
	}
	if at != was {
		l.Steps = append(l.Steps, at)
	}
}

// BestLap is the quickest lap of a year at a place in some conditions.
type BestLap struct {
	Place      string     // of the event, or else its name; "" where it was at none
	Conditions Conditions // "" where nobody said
	Lap        time.Duration
	At         time.Time
}

// BestLaps are the quickest laps by place and conditions: places by name, each
// dry before damp before wet. What a run does not say of the track, its event
// does.
func (s CarSeason) BestLaps() []BestLap {
	best := map[[2]string]BestLap{}
	for _, f := range s.Feels {
		if f.Lap <= 0 {
			continue
		}
		e := s.eventOf(f)
		lap := BestLap{cmp.Or(strings.TrimSpace(e.Place), e.Name), cmp.Or(f.Conditions, Conditions(e.Weather.Known())), f.Lap, f.At}
		key := [2]string{strings.ToLower(lap.Place), string(lap.Conditions)}
		if was, ok := best[key]; !ok || lap.Lap < was.Lap {
			best[key] = lap
		}
	}
	laps := make([]BestLap, 0, len(best))
	for _, l := range best {
		laps = append(laps, l)
	}
	order := []Conditions{ItWasDry, ItWasDamp, ItWasWet, ""}
	slices.SortFunc(laps, func(a, b BestLap) int {
		return cmp.Or(strings.Compare(strings.ToLower(a.Place), strings.ToLower(b.Place)),
			slices.Index(order, a.Conditions)-slices.Index(order, b.Conditions))
	})
	return laps
}

// eventOf is the event that a feel belongs to, zero for none.
func (s CarSeason) eventOf(f Feel) (e Event) {
	if i := slices.IndexFunc(s.Events, func(e Event) bool { return e.ID == f.Event }); i >= 0 && f.Event != 0 {
		e = s.Events[i]
	}
	return e
}

// Damp tells whether a feel was of a damp or wet track, as far as it or its
// event says.
func (s CarSeason) Damp(f Feel) bool {
	c := cmp.Or(f.Conditions, Conditions(s.eventOf(f).Weather.Known()))
	return c == ItWasDamp || c == ItWasWet
}
