package tuning

import "slices"

// This file turns a row of the table into moves for the car at hand.

// remedyOf turns a recipe into a remedy, which has no moves when no click is
// left. fits is false when no adjuster fits. It notes both cases.
func (j *judge) remedyOf(r recipe) (remedy Remedy, fits bool) {
	targets, fits := j.targets(r)
	if !fits {
		return Remedy{}, false
	}
	remedy = Remedy{Kind: TurnClicks, Why: r.why, Watch: r.watch, Confidence: r.confidence}
	remedy.Moves = turnTogether(j.car, j.at, targets, r.turn)
	remedy.High = nearHard(j.car, j.at, targets)
	if len(remedy.Moves) == 0 {
		f := j.factAbout(r, targets)
		f.Kind, f.Turn = AtStop, r.turn
		j.note(f)
		return remedy, true
	}
	j.noteShrinking(&remedy, targets, r)
	return remedy, true
}

// noteShrinking notes where fewer clicks are left than the recipe asks for.
func (j *judge) noteShrinking(remedy *Remedy, targets []target, r recipe) {
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
		f := Fact{Kind: NearStop, Part: PartOf(t.corner.Axle()), Adjuster: t.adjuster, Turn: r.turn, Clicks: turned}
		switch {
		case turned == 0:
			f.Kind = StaysAtStop
		case r.scope == allAlike:
			f.Part = WholeCar
			j.note(f)
			return
		}
		j.note(f)
	}
}

// targets is targetsOf for the car at hand, and says what its dampers lack.
func (j *judge) targets(r recipe) (targets []target, ok bool) {
	targets, lacking := r.targetsOf(j.car, j.complaint, j.sizes)
	if r.job != FastRebound { // the table offers that one only where it exists
		for _, axle := range lacking {
			j.note(Fact{Kind: NoneForJob, Axle: axle, Job: r.job.least()})
		}
	}
	return targets, len(targets) > 0
}

// targetsOf finds the adjusters that a recipe turns and how far, whether or not
// there is room, and the axles whose dampers lack one. There are no targets where
// the recipe cannot do without the adjuster that is lacking.
func (r recipe) targetsOf(car Car, c Complaint, sizes Sizes) (targets []target, lacking []Axle) {
	var fits [Axles]fitting
	smallest := MaxRange
	var has []Axle
	for _, axle := range r.axles(c) {
		fit, ok := r.job.fittingOn(car.Dampers[axle])
		if !ok {
			lacking = append(lacking, axle)
			continue
		}
		has, fits[axle] = append(has, axle), fit
		smallest = min(smallest, car.Dampers[axle].Range[fit.adjuster])
	}
	if len(lacking) > 0 && r.scope != bothAxles {
		return nil, lacking
	}
	for _, axle := range has {
		n := car.Dampers[axle].Range[fits[axle].adjuster]
		if r.scope == allAlike {
			n = smallest
		}
		clicks := r.size.clicks(fits[axle], n, sizes)
		for _, corner := range axle.Corners() {
			targets = append(targets, target{corner, fits[axle].adjuster, clicks})
		}
	}
	return targets, lacking
}

// clicks is how far a size is on an adjuster with n clicks.
func (s size) clicks(f fitting, n int, sizes Sizes) int {
	switch {
	case f.slight || s == slight:
		return sizes.Slight
	case s == backOff:
		return sizes.BackOff(n)
	}
	return sizes.Step(n)
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

// factAbout is a fact about what a recipe turns: an adjuster, or where this car's
// dampers call it by different names, a job.
func (j *judge) factAbout(r recipe, targets []target) Fact {
	name := func(t target) string { return j.car.Dampers[t.corner.Axle()].Label(t.adjuster) }
	first := targets[0]
	f := Fact{Part: WholeCar, Axle: first.corner.Axle(), Adjuster: first.adjuster}
	if axles := r.axles(j.complaint); len(axles) == 1 {
		f.Part = PartOf(axles[0])
		return f
	}
	if slices.ContainsFunc(targets, func(t target) bool { return name(t) != name(first) }) {
		f.Job = r.job
	}
	return f
}
