package tuning

// Setting is where every adjuster of a car stands, in clicks from full soft.
// Adjusters that a damper lacks stay 0, so two settings compare with ==.
type Setting [Corners][Adjusters]int

// Move is one adjuster of one corner going from one position to another, in
// clicks from full soft.
type Move struct {
	Corner   Corner   `json:"corner"`
	Adjuster Adjuster `json:"adjuster"`
	From     int      `json:"from"`
	To       int      `json:"to"`
}

// Clicks is the size of the move, never negative.
func (m Move) Clicks() int { return max(m.To-m.From, m.From-m.To) }

// Turn is the way a move goes.
type Turn string

// The ways a move can go.
const (
	Stiffer Turn = "stiffer"
	Softer  Turn = "softer"
	Still   Turn = "none"
)

// Reverse is the other way.
func (t Turn) Reverse() Turn {
	switch t {
	case Stiffer:
		return Softer
	case Softer:
		return Stiffer
	}
	return Still
}

// Turn tells which way the move goes.
func (m Move) Turn() Turn {
	switch {
	case m.To > m.From:
		return Stiffer
	case m.To < m.From:
		return Softer
	}
	return Still
}

// Apply returns the setting after the moves. It returns Moved when a move
// does not start where the adjuster stands.
func (s Setting) Apply(moves []Move) (Setting, error) {
	for _, m := range moves {
		if s[m.Corner][m.Adjuster] != m.From {
			return s, Moved{m}
		}
		s[m.Corner][m.Adjuster] = m.To
	}
	return s, nil
}

// Backward returns the moves that take moves back.
func Backward(moves []Move) []Move {
	back := make([]Move, len(moves))
	for i, m := range moves {
		back[len(moves)-1-i] = Move{m.Corner, m.Adjuster, m.To, m.From}
	}
	return back
}

// Toward returns the moves that bring the car from s to want, corner by
// corner, adjusters in the order shown; those already there are left out.
func (s Setting) Toward(want Setting, car Car) []Move {
	var moves []Move
	for _, m := range s.Across(want, car) {
		if m.From != m.To {
			moves = append(moves, m)
		}
	}
	return moves
}

// Across is Toward, with the adjusters that stay where they are included.
func (s Setting) Across(want Setting, car Car) []Move {
	var moves []Move
	for c := range Corner(Corners) {
		for _, a := range car.Dampers[c.Axle()].Adjusters() {
			moves = append(moves, Move{c, a, s[c][a], want[c][a]})
		}
	}
	return moves
}
