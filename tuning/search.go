package tuning

import "time"

// Search is one grip search: all four bump adjusters together, a step a run,
// until the car begins to hop; then the back-off, and that is the peak. It is
// kept over days until something ends it. Wet and dry are separate searches.
type Search struct {
	ID      int64
	Car     int64
	Weather Weather
	Started time.Time
	Event   int64
	Runs    []Run     // oldest first
	Stopped time.Time // zero while it goes on
	Why     SearchEnd // "" while it goes on
}

// Run is what the driver said after a run of the search and what followed.
type Run struct {
	At     time.Time
	Hop    bool
	Grip   int // 1 to 10, 0 not said
	Clicks int // the step that followed: stiffer above 0, softer below
}

// SearchEnd is why a search is over.
type SearchEnd string

// The ends of a search.
const (
	EndHop    SearchEnd = "hop"    // the car began to hop: backed off, this is the peak
	EndStop   SearchEnd = "stop"   // an adjuster reached its stop
	EndDriver SearchEnd = "driver" // the driver ended it
)

// Step answers a run: the moves to make before the next one, and why the
// search ends, "" when it goes on. It returns NoBump when the dampers have
// no bump adjusters to search with.
func (s Search) Step(car Car, at Setting, hop bool, sizes Sizes) (moves []Move, end SearchEnd, err error) {
	fit, ok := fitBump(car)
	if !ok {
		return nil, "", NoBump{car.Name}
	}
	n := min(car.Dampers[Front].Range[fit[Front]], car.Dampers[Rear].Range[fit[Rear]])
	turn, clicks := Stiffer, sizes.Step(n)
	if hop {
		turn, clicks = Softer, sizes.BackOff(n)
		end = EndHop
	}
	var targets []target
	for c := range Corner(Corners) {
		targets = append(targets, target{c, fit[c.Axle()], clicks})
	}
	moves = turnTogether(car, at, targets, turn)
	if !hop && len(moves) == 0 {
		end = EndStop
	}
	return moves, end, nil
}

// fitBump finds the bump adjuster of both axles.
func fitBump(car Car) (fit [Axles]Adjuster, ok bool) {
	for axle := range Axle(Axles) {
		f, has := AnyBump.fittingOn(car.Dampers[axle])
		if !has {
			return fit, false
		}
		fit[axle] = f.adjuster
	}
	return fit, true
}
