package tuning

import "slices"

// This file turns a row of the table into moves for the car at hand.

// make turns a recipe into a remedy. ok is false when no adjuster fits or no
// click is left; it has said so then.
func (j *judge) make(r recipe) (remedy Remedy, ok bool) {
	targets, ok := j.targets(r)
	if !ok {
		return Remedy{}, false
	}
	remedy = Remedy{Kind: TurnClicks, Why: r.why, Watch: r.watch, Confidence: r.confidence}
	remedy.Moves = together(j.car, j.at, targets, r.turn)
	if len(remedy.Moves) == 0 {
		j.note("The %s is at its %s stop already, so that remedy is left out.", r.on(j.complaint), end(r.turn))
		return Remedy{}, false
	}
	for _, m := range remedy.Moves {
		remedy.High = remedy.High || 3*m.From > 2*j.car.Dampers[m.Corner.Axle()].Range[m.Adjuster]
	}
	j.shrink(&remedy, targets, r)
	return remedy, true
}

// shrink notes where fewer clicks are left than the recipe asks for.
func (j *judge) shrink(remedy *Remedy, targets []target, r recipe) {
	for _, t := range targets {
		if t.corner%2 == 1 {
			continue // its left side has been looked at
		}
		turned := 0
		if i := slices.IndexFunc(remedy.Moves, func(m Move) bool { return m.Corner == t.corner }); i >= 0 {
			turned = remedy.Moves[i].Clicks()
		}
		if turned == t.clicks {
			continue
		}
		remedy.Short = true
		what := t.corner.Axle().String() + " " + j.car.Dampers[t.corner.Axle()].Label(t.adjuster)
		switch {
		case turned == 0:
			j.note("The %s is at its %s stop already and stays.", what, end(r.turn))
		case r.scope == allAlike:
			j.note("A corner is near its %s stop: that remedy is only the %d left, the same at all four.", end(r.turn), turned)
			return
		default:
			j.note("The %s is near its %s stop: that remedy is only the %d left.", what, end(r.turn), turned)
		}
	}
}

// targets finds the adjusters a recipe turns and how far. ok is false when the
// dampers lack them.
func (j *judge) targets(r recipe) (targets []target, ok bool) {
	var fits [Axles]fitting
	var has [Axles]bool
	smallest := MaxRange
	for _, axle := range r.axles(j.complaint) {
		fits[axle], has[axle] = r.knob.on(j.car.Dampers[axle])
		if !has[axle] {
			if r.knob != fastReb { // the table offers that one only where it exists
				j.note("The %s damper has no adjuster for %s.", axle, r.knob.least())
			}
			if r.scope != bothAxles {
				return nil, false
			}
			continue
		}
		smallest = min(smallest, j.car.Dampers[axle].Range[fits[axle].adjuster])
	}
	for _, axle := range r.axles(j.complaint) {
		if !has[axle] {
			continue
		}
		n := j.car.Dampers[axle].Range[fits[axle].adjuster]
		if r.scope == allAlike {
			n = smallest
		}
		clicks := j.clicks(r.size, fits[axle], n)
		for _, c := range axle.Corners() {
			targets = append(targets, target{c, fits[axle].adjuster, clicks})
		}
	}
	return targets, len(targets) > 0
}

func (j *judge) clicks(s size, f fitting, n int) int {
	switch {
	case f.slight || s == slight:
		return j.sizes.Slight
	case s == backOff:
		return j.sizes.BackOff(n)
	}
	return j.sizes.Step(n)
}

// axles lists the ends a recipe turns.
func (r recipe) axles(c Complaint) []Axle {
	switch r.scope {
	case front:
		return []Axle{Front}
	case rear:
		return []Axle{Rear}
	case saidAxle:
		return []Axle{*c.Axle}
	}
	return []Axle{Front, Rear}
}

// on names what a recipe turns, for a sentence.
func (r recipe) on(c Complaint) string {
	if axles := r.axles(c); len(axles) == 1 {
		return axles[0].String() + " " + r.knob.job()
	}
	return r.knob.job()
}

func end(t Turn) string {
	if t == Stiffer {
		return "hard"
	}
	return "soft"
}
