package tuning

import (
	"slices"
	"strings"
)

// SamePlace tells whether two names mean one place, whatever their case.
func SamePlace(a, b string) bool {
	a, b = strings.TrimSpace(a), strings.TrimSpace(b)
	return a != "" && strings.EqualFold(a, b)
}

// PlaceRecord is what is on record of a car that a place needs to be remembered
// by.
type PlaceRecord struct {
	Car     Car
	Visits  []Event     // at the place, of which something was recorded, in order of their start
	Changes []Change    // all of the car's, wherever they were made, oldest first
	Feels   []FeltThere // at the visits, oldest first
}

// FeltThere is how a car felt at a place.
type FeltThere struct {
	Feel
	Weather Weather // "" where nobody said
	Event   string  // the name of the event
}

// Stood is where a car's clicks stood at a moment, as far as the record knew.
type Stood struct {
	Setting    Setting
	Unrecorded bool        // nobody had said where they stood
	Refitted   [Axles]bool // the axle has got other dampers since, so its clicks of then are none any more
}

// BestThere is how a car felt best at a place in a weather, and where its clicks
// stood then.
type BestThere struct {
	FeltThere
	Stood
}

// PlaceMemory is what a place remembers of a car.
type PlaceMemory struct {
	Car   Car
	Today Stood
	Best  []BestThere // in the dry, in the wet, and where nobody said which
	Last  Stood       // when the last visit was over
	Visit Event       // the last
}

// Memory is what the place remembers. Ok is false where nothing is on record of
// the car there.
func (r PlaceRecord) Memory() (m PlaceMemory, ok bool) {
	if len(r.Visits) == 0 {
		return m, false
	}
	m = PlaceMemory{Car: r.Car, Today: r.stood(len(r.Changes)), Visit: r.Visits[len(r.Visits)-1]}
	for _, w := range []Weather{Dry, Wet, ""} {
		if f, felt := r.best(w); felt {
			m.Best = append(m.Best, BestThere{f, r.stood(r.changesBefore(f.Feel))})
		}
	}
	m.Last = r.stood(r.changesUntil(m.Visit))
	return m, true
}

// best is the feel of most grip in a weather, and of several the newest.
func (r PlaceRecord) best(w Weather) (best FeltThere, ok bool) {
	for _, f := range r.Feels {
		if f.Weather == w && f.Grip >= best.Grip {
			best, ok = f, true
		}
	}
	return best, ok
}

// changesBefore is how many of the changes were made before a feel. It names the
// last that turned something; of one moment with it, a correction of the record
// and a fitting came before, anything else after.
func (r PlaceRecord) changesBefore(f Feel) int {
	before := r.leading(func(c Change) bool {
		turned := c.Reason != ByFitting && !c.Corrects()
		return c.ID <= f.Change || c.At.Before(f.At) || c.At.Equal(f.At) && !turned
	})
	if i := slices.IndexFunc(r.Visits, func(e Event) bool { return e.ID == f.Event }); i >= 0 {
		before = min(before, r.changesUntil(r.Visits[i])) // said at home, where other clicks may stand by then
	}
	return before
}

// changesUntil is how many of the changes were made before an event was over, or
// belong to it.
func (r PlaceRecord) changesUntil(e Event) int {
	return r.leading(func(c Change) bool { return c.Event == e.ID || !c.At.After(e.Ends) })
}

// leading counts the changes up to the first that does not hold.
func (r PlaceRecord) leading(holds func(Change) bool) int {
	if i := slices.IndexFunc(r.Changes, func(c Change) bool { return !holds(c) }); i >= 0 {
		return i
	}
	return len(r.Changes)
}

// stood replays the log up to so many changes. A change that was taken back later
// stood until then: taking back is a change of its own.
func (r PlaceRecord) stood(changes int) Stood {
	var s Stood
	var said [Corners][Adjusters]bool
	for _, c := range r.Changes[:changes] {
		if c.Reason == ByFitting && len(c.Moves) > 0 {
			for _, corner := range c.Moves[0].Corner.Axle().Corners() {
				s.Setting[corner], said[corner] = [Adjusters]int{}, [Adjusters]bool{}
			}
		}
		for _, m := range c.Moves {
			s.Setting[m.Corner][m.Adjuster] = m.To
			said[m.Corner][m.Adjuster] = c.Reason != ByFitting
		}
	}
	for _, c := range r.Changes[changes:] {
		if c.Reason == ByFitting && len(c.Moves) > 0 {
			s.Refitted[c.Moves[0].Corner.Axle()] = true
		}
	}
	s.Unrecorded = said == [Corners][Adjusters]bool{}
	return s
}

// Toward returns the moves from where the car stands today to where it stood,
// of the dampers that it still has.
func (m PlaceMemory) Toward(then Stood) []Move {
	moves := m.Today.Setting.Toward(then.Setting, m.Car)
	return slices.DeleteFunc(moves, func(m Move) bool { return then.Refitted[m.Corner.Axle()] })
}

// For is what counts of the bests in a weather: those in it, where there are
// any, otherwise all.
func (m PlaceMemory) For(w Weather) []BestThere {
	var those []BestThere
	for _, b := range m.Best {
		if b.Weather == w {
			those = append(those, b)
		}
	}
	if w == "" || len(those) == 0 {
		return m.Best
	}
	return those
}

// LastIsBest tells whether the last visit was left with the clicks of one of the
// bests, and of which.
func (m PlaceMemory) LastIsBest() (best BestThere, same bool) {
	i := slices.IndexFunc(m.Best, func(b BestThere) bool { return b.Stood == m.Last })
	if i < 0 {
		return best, false
	}
	return m.Best[i], true
}

// Weather is the weather of a run in such conditions, "" where nobody said.
func (c Conditions) Weather() Weather {
	switch c {
	case ItWasDry:
		return Dry
	case ItWasDamp, ItWasWet:
		return Wet
	}
	return ""
}
