package tuning

import "time"

// Kept is where a car's clicks stood, kept under a name.
type Kept struct {
	ID      int64
	Car     int64
	Name    string
	At      time.Time
	Event   int64         // the event the car was entered in, 0 for none
	Place   string        // of that event, "" for not known
	Weather Conditions    // of that day
	Setting Setting       // on the dampers of then
	Dampers [Axles]Damper // that the car had then
	Felt    *Feel         // the newest with these clicks, nil for none
}

// Carried is how one adjuster of one corner came from a setting on other
// dampers.
type Carried struct {
	Corner   Corner
	Adjuster Adjuster // of the dampers it came to; where there is no such one, of those it came from
	From     Adjuster // whose part of the range it has
	How      Carriage
	At, Of   int     // where that stood, in clicks from full soft, and how many it had
	Exact    float64 // the same part of the range as clicks from full soft
	To       int     // Exact as a whole click
}

// Carriage is how a setting comes to an adjuster of other dampers.
type Carriage string

// The ways a setting comes to other dampers.
const (
	SamePart Carriage = "same part" // of the range
	NoSource Carriage = "no source" // nothing did its work there: it stays where it stands
	NoTarget Carriage = "no target" // nothing does its work here: it is left out
)

// Rounded tells whether the same part of the range is no whole click.
func (c Carried) Rounded() bool { return c.How == SamePart && float64(c.To) != c.Exact }

// Carry takes a setting from dampers to those of a car that stands somewhere:
// each adjuster to the same part of its range as on the damper it comes from,
// the softer click where two are as near. It tells what became of each adjuster
// that has another range or another name there, corner by corner.
// Common practice, no published source.
func Carry(at Setting, from [Axles]Damper, car Car, stands Setting) (want Setting, carried []Carried) {
	for c := range Corner(Corners) {
		old, now := from[c.Axle()], car.Dampers[c.Axle()]
		taken := map[Adjuster]bool{}
		for _, a := range now.Adjusters() {
			source, ok := old.counterpart(a)
			if !ok {
				want[c][a] = stands[c][a]
				carried = append(carried, Carried{Corner: c, Adjuster: a, How: NoSource, To: stands[c][a]})
				continue
			}
			taken[source] = true
			stood, of, clicks := at[c][source], old.Range[source], now.Range[a]
			want[c][a] = nearest(stood*clicks, of)
			if source != a || of != clicks {
				carried = append(carried, Carried{Corner: c, Adjuster: a, From: source, How: SamePart,
					At: stood, Of: of, Exact: float64(stood*clicks) / float64(of), To: want[c][a]})
			}
		}
		for _, a := range old.Adjusters() {
			if !taken[a] {
				carried = append(carried, Carried{Corner: c, Adjuster: a, From: a, How: NoTarget, At: at[c][a], Of: old.Range[a]})
			}
		}
	}
	return want, carried
}

// nearest is part/whole as a whole number, the smaller where two are as near.
func nearest(part, whole int) int { return (2*part + whole - 1) / (2 * whole) }

// counterpart is the adjuster of the damper that does what an adjuster of
// another damper does: the same one, else the nearest by its name, else a single
// one that moves both directions. ok is false where there is none.
func (d Damper) counterpart(a Adjuster) (same Adjuster, ok bool) {
	candidates := []Adjuster{a}
	switch a {
	case Bump:
		candidates = append(candidates, LowBump)
	case LowBump, HighBump:
		candidates = append(candidates, Bump)
	case Rebound:
		candidates = append(candidates, LowRebound)
	case LowRebound, HighRebound:
		candidates = append(candidates, Rebound)
	}
	if d.Ways == 1 && d.Moves == MovesBoth {
		candidates = append(candidates, Rebound)
	}
	for _, c := range candidates {
		if d.Has(c) {
			return c, true
		}
	}
	return a, false
}
