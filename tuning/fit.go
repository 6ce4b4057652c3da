package tuning

// fitting is the adjuster that does a job on the damper at hand.
type fitting struct {
	adjuster Adjuster
	slight   bool // it only stands in, so turn it less
}

// fittingOn finds the adjuster that does the job on a damper, the best that it
// has. ok is false when nothing fits.
func (k Job) fittingOn(d Damper) (f fitting, ok bool) {
	switch k {
	case AnyRebound:
		return firstFitted(d, LowRebound, Rebound)
	case FastRebound:
		return firstFitted(d, HighRebound)
	case FastBump:
		if d.Has(HighBump) {
			return fitting{adjuster: HighBump}, true
		}
		f, ok = AnyBump.fittingOn(d)
		f.slight = true
		return f, ok
	}
	if d.Ways == 1 && d.Moves == MovesBoth {
		return fitting{adjuster: Rebound}, true
	}
	return firstFitted(d, LowBump, Bump)
}

func firstFitted(d Damper, words ...Adjuster) (fitting, bool) {
	for _, a := range words {
		if d.Has(a) {
			return fitting{adjuster: a}, true
		}
	}
	return fitting{}, false
}

// target is how far one adjuster of one corner should turn.
type target struct {
	corner   Corner
	adjuster Adjuster
	clicks   int
}

// clicksLeft is how many clicks are left before the stop.
func clicksLeft(car Car, at Setting, t target, turn Turn) int {
	if turn == Stiffer {
		return car.Dampers[t.corner.Axle()].Range[t.adjuster] - at[t.corner][t.adjuster]
	}
	return at[t.corner][t.adjuster]
}

// turnTogether turns the targets the same way, never past a stop. Where all move
// alike, the corner with the least room sets the number for all; an axle with a
// step of its own is limited by its own room.
func turnTogether(car Car, at Setting, targets []target, turn Turn) []Move {
	most := [Axles]int{MaxRange, MaxRange}
	alike := true
	for _, t := range targets {
		axle := t.corner.Axle()
		most[axle] = min(most[axle], clicksLeft(car, at, t, turn))
		alike = alike && t.clicks == targets[0].clicks
	}
	if alike {
		least := min(most[Front], most[Rear])
		most = [Axles]int{least, least}
	}
	var moves []Move
	for _, t := range targets {
		clicks := min(t.clicks, most[t.corner.Axle()])
		if turn == Softer {
			clicks = -clicks
		}
		if clicks != 0 {
			from := at[t.corner][t.adjuster]
			moves = append(moves, Move{t.corner, t.adjuster, from, from + clicks})
		}
	}
	return moves
}
