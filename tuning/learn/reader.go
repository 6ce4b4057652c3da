package learn

import (
	"slices"

	"detent/tuning"
)

// mostAfter is how many changes may follow a change before the feel that judges
// it.
const mostAfter = 1

// reader goes through a record once, oldest entry first.
type reader struct {
	record Record
	car    tuning.Car        // with the dampers it had then; an axle whose dampers are not known has none
	asked  *tuning.Complaint // the last one, nil for none
	last   *Felt             // the feel before the run, nil for none
	run    []step            // what was changed since
	tries  []Try
}

// step is one change since the last feel. Only a step with a complaint can be a
// try.
type step struct {
	change    tuning.Change
	complaint *tuning.Complaint
	match     tuning.Match
}

// forgetOldDampers makes the dampers unknown that a later entry replaces.
func (r *reader) forgetOldDampers() {
	for _, e := range r.record.Entries {
		if c, ok := e.(Changed); ok && c.Reason == tuning.ByFitting {
			for _, axle := range axlesOf(c.Moves) {
				r.car.Dampers[axle] = tuning.Damper{}
			}
		}
	}
}

func (r *reader) changed(c Changed) {
	switch {
	case c.Reason == tuning.ByHand && !c.Turned, !turnsAnything(c.Moves):
	case c.Reason == tuning.ByFitting:
		r.fitted(c)
	case c.Undoes != 0 && r.takenBack(c.Undoes):
	default:
		r.run = append(r.run, r.stepOf(c))
	}
}

// takenBack drops a change that no feel has followed. ok is false where a feel
// has followed, or there is no change of that number.
func (r *reader) takenBack(id int64) (ok bool) {
	i := slices.IndexFunc(r.run, func(s step) bool { return s.change.ID == id })
	if i < 0 {
		return false
	}
	r.run = slices.Delete(r.run, i, i+1)
	return true
}

// fitted takes the new dampers of the axles that the change names. What was
// turned or felt before says nothing of them, so the record begins anew.
func (r *reader) fitted(c Changed) {
	for _, axle := range axlesOf(c.Moves) {
		r.car.Dampers[axle] = c.Fitted
		if !c.Fitted.Fitted() && r.newest(c, axle) {
			r.car.Dampers[axle] = r.record.Car.Dampers[axle]
		}
	}
	r.run, r.last = nil, nil
}

// newest tells whether no later entry fits dampers to the axle, so that the
// change fitted those of today.
func (r *reader) newest(c Changed, axle tuning.Axle) bool {
	for _, e := range slices.Backward(r.record.Entries) {
		if later, ok := e.(Changed); ok && later.Reason == tuning.ByFitting && slices.Contains(axlesOf(later.Moves), axle) {
			return later.ID == c.ID
		}
	}
	return false
}

// stepOf reads a change as a remedy, of its own complaint or of the last one.
func (r *reader) stepOf(c Changed) step {
	complaint := c.Complaint
	switch {
	case c.Kind != "" && c.Kind != tuning.TurnClicks:
		complaint = nil
	case c.Reason == tuning.BySearch:
		complaint = &tuning.Complaint{What: tuning.LowGrip}
	case c.Reason == tuning.ByHand:
		complaint = r.asked
	case c.Reason != tuning.ByRemedy || c.Kind == "":
		complaint = nil
	case complaint == nil: // a coach's suggestion
		complaint = r.asked
	}
	s := step{change: c.Change}
	if complaint == nil {
		return s
	}
	if match, ok := tuning.MatchMoves(r.car, *complaint, c.Moves, r.record.Sizes); ok {
		s.complaint, s.match = complaint, match
	}
	return s
}

// felt ends the run: each of its last remedies is a try where the feel says
// something of it. Only the first change of a run has a feel before it.
func (r *reader) felt(f Felt) {
	for i, s := range r.run {
		if s.complaint == nil || len(r.run)-1-i > mostAfter {
			continue
		}
		var before *tuning.Feel
		if i == 0 && r.last != nil {
			before = &r.last.Feel
		}
		reading, ok := readFeels(*s.complaint, before, f.Feel)
		if !ok {
			continue
		}
		if len(r.run) > 1 || r.otherWeather(f) {
			reading.Variance *= 2
		}
		r.tries = append(r.tries, Try{Car: r.record.Car.ID, Owner: r.record.Car.Owner, Change: s.change.ID, Feel: f.ID,
			Key: s.match.Key, At: f.At, Fraction: s.match.Fraction, Reading: reading})
	}
	r.run, r.last = nil, &f
}

// otherWeather tells whether a run was in another weather than the one before.
func (r *reader) otherWeather(f Felt) bool {
	return r.last != nil && r.last.Weather != "" && f.Weather != "" && r.last.Weather != f.Weather
}

// turnsAnything tells whether an adjuster was turned, or its place first said.
func turnsAnything(moves []tuning.Move) bool {
	return slices.ContainsFunc(moves, func(m tuning.Move) bool { return m.From != m.To })
}

// axlesOf lists the axles that moves name, each once.
func axlesOf(moves []tuning.Move) []tuning.Axle {
	var axles []tuning.Axle
	for _, m := range moves {
		if axle := m.Corner.Axle(); !slices.Contains(axles, axle) {
			axles = append(axles, axle)
		}
	}
	return axles
}
