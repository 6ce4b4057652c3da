package tuning

import "slices"

// This file is the part of the judgement that remembers: what was tried for
// the complaint before, and what came of it.

// enoughTries is how many tries in one direction without a gain end the clicks
// for a complaint.
const enoughTries = 2

// stopsForFault stops all click advice when the driver's last words spoke of
// something broken.
func (j *judge) stopsForFault() bool {
	word := Fault(j.history.LastNotes())
	if word == "" {
		return false
	}
	j.tell(Fact{Kind: FaultTold, Word: word})
	return true
}

// triedTwice stops turning clicks when two tries in one direction for this
// complaint brought no gain. What made it worse can still be taken back.
func (j *judge) triedTwice() bool {
	tries := j.tries()
	if len(tries) < enoughTries {
		return false
	}
	for _, t := range tries[:enoughTries] {
		gained := t.Felt != BetterNo && t.Felt != BetterSame
		if gained || !sameDirection(t, tries[0]) {
			return false
		}
	}
	j.note(Fact{Kind: TwoTries})
	if back, ok := j.takeBack(tries[0]); ok {
		j.advice.Remedies = []Remedy{back}
	}
	return true
}

// fromMemory puts first what the record calls for: taking back what made the car
// worse, or half of what went too far.
func (j *judge) fromMemory() {
	if tries := j.tries(); len(tries) > 0 {
		j.warnOfWorse(tries)
		j.askHow(tries)
		if back, ok := j.takeBack(tries[0]); ok {
			j.putFirst(back)
			return
		}
	}
	if half, ok := j.halfBack(); ok {
		j.putFirst(half)
	}
}

// putFirst puts a remedy before the table's, and drops the one of the table
// that makes the same moves.
func (j *judge) putFirst(first Remedy) {
	rest := slices.DeleteFunc(j.advice.Remedies, func(r Remedy) bool { return slices.Equal(r.Moves, first.Moves) })
	j.advice.Remedies = append([]Remedy{first}, rest...)
}

// warnOfWorse tells of each remedy that turns the way that was felt as worse before.
func (j *judge) warnOfWorse(tries []Change) {
	for _, r := range j.advice.Remedies {
		i := slices.IndexFunc(tries, func(t Change) bool { return t.Felt == BetterNo && sameDirection(t, Change{Moves: r.Moves}) })
		if r.Kind != TurnClicks || i < 0 {
			continue
		}
		m := r.Moves[0]
		j.tell(Fact{Kind: FeltWorse, Axle: m.Corner.Axle(), Adjuster: m.Adjuster, Turn: m.Turn(), At: tries[i].At})
	}
}

// markFailed marks the remedies whose turn was the last thing tried for the complaint
// in this weather, felt worse and was taken back.
func (j *judge) markFailed() {
	for i, r := range j.advice.Remedies {
		j.advice.Remedies[i].Failed = r.Kind == TurnClicks && j.justFailed(r)
	}
}

func (j *judge) justFailed(r Remedy) bool {
	for _, t := range j.tries() {
		if t.Complaint.weather() != j.complaint.weather() {
			continue
		}
		return t.Felt == BetterNo && t.Undone && sameDirection(t, Change{Moves: r.Moves})
	}
	return false
}

// askHow asks how tries felt of which the driver said nothing. Only tries that
// are known to bring no gain are a reason to stop.
func (j *judge) askHow(tries []Change) {
	if len(tries) < enoughTries {
		return
	}
	for _, t := range tries[:enoughTries] {
		if t.Felt != "" || t.Undone || !sameDirection(t, tries[0]) {
			return
		}
	}
	j.tell(Fact{Kind: UntoldTries})
}

// tries lists the remedies applied for this complaint, newest first.
func (j *judge) tries() []Change {
	var tries []Change
	for _, c := range j.history.Changes {
		if c.Reason == ByRemedy && c.Complaint != nil && c.Complaint.sameAs(j.complaint) {
			tries = append(tries, c)
		}
	}
	return tries
}

// takeBack is the remedy that undoes a try which made the car worse.
func (j *judge) takeBack(t Change) (Remedy, bool) {
	if t.Felt != BetterNo || t.Undone {
		return Remedy{}, false
	}
	moves := j.turnBack(t.Moves, func(clicks int) int { return clicks })
	return Remedy{Kind: TakeBack, Why: WhyMadeItWorse, Confidence: CommonPractice,
		Watch: WatchFeelsAsBefore, Moves: moves, Undoes: t.ID}, len(moves) > 0
}

// halfBack is the remedy for a complaint that turned into its opposite: half
// the last change back, at least one click.
func (j *judge) halfBack() (Remedy, bool) {
	for _, c := range j.history.Changes {
		if c.Undone || c.Reason == ByUndo || c.Corrects() {
			continue
		}
		if c.Reason != ByRemedy || c.Complaint == nil || !j.complaint.turnedFrom(*c.Complaint) {
			return Remedy{}, false
		}
		moves := j.turnBack(c.Moves, func(clicks int) int { return max(1, clicks/2) })
		return Remedy{Kind: HalfBack, Why: WhyWentTooFar,
			Watch: WatchWhichIsLeft, Confidence: CommonPractice, Moves: moves}, len(moves) > 0
	}
	return Remedy{}, false
}

// turnBack turns moves back from where the adjusters stand now, each by so many
// of its clicks, and never past a stop.
func (j *judge) turnBack(moves []Move, part func(clicks int) int) []Move {
	var back []Move
	for _, m := range moves {
		if m.From == m.To || m.From < 0 {
			continue
		}
		t := target{m.Corner, m.Adjuster, part(m.Clicks())}
		back = append(back, turnTogether(j.car, j.at, []target{t}, m.Turn().Reverse())...)
	}
	return back
}

// sameDirection tells whether two changes turned the same adjuster of the same
// axle the same way.
func sameDirection(a, b Change) bool {
	if len(a.Moves) == 0 || len(b.Moves) == 0 {
		return false
	}
	x, y := a.Moves[0], b.Moves[0]
	return x.Corner.Axle() == y.Corner.Axle() && x.Adjuster == y.Adjuster && x.Turn() == y.Turn()
}
