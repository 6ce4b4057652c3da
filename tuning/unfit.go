package tuning

import "fmt"

// Unfitted is a car whose dampers on an axle are not known. Car is "" where the
// car goes without saying.
type Unfitted struct {
	Car  string
	Axle Axle
}

func (u Unfitted) Error() string {
	return fmt.Sprintf("the %s dampers of %q are not known", u.Axle, u.Car)
}

// Refuses returns Invalid.
func (Unfitted) Refuses() Kind { return Invalid }

// NoDampers is a car of which nothing was ever fitted.
type NoDampers struct{ Car string }

func (n NoDampers) Error() string { return fmt.Sprintf("no dampers of %q are known", n.Car) }

// Refuses returns Conflict.
func (NoDampers) Refuses() Kind { return Conflict }

// NoBump is a car with a damper that has no bump adjuster to search grip with.
type NoBump struct{ Car string }

func (n NoBump) Error() string { return fmt.Sprintf("%q has a damper without a bump adjuster", n.Car) }

// Refuses returns Invalid.
func (NoBump) Refuses() Kind { return Invalid }

// BadRange is a number of clicks that no adjuster has, 0 for one not said.
type BadRange struct {
	Adjuster Adjuster
	Clicks   int
}

func (b BadRange) Error() string { return fmt.Sprintf("%s has %d clicks", b.Adjuster, b.Clicks) }

// Refuses returns Invalid.
func (BadRange) Refuses() Kind { return Invalid }

// NoAdjuster is an adjuster that a damper of so many ways does not carry.
type NoAdjuster struct {
	Ways     Ways
	Adjuster Adjuster
}

func (n NoAdjuster) Error() string {
	return fmt.Sprintf("a %s-way damper has no %s", n.Ways, n.Adjuster)
}

// Refuses returns Invalid.
func (NoAdjuster) Refuses() Kind { return Invalid }

// PastStop is a position that an adjuster cannot reach, in the member's own
// counting.
type PastStop struct {
	Adjuster Adjuster
	Typed    int
	Most     int // clicks between the stops
	Count    Count
}

func (p PastStop) Error() string {
	return fmt.Sprintf("%d is past the stops of %s, 0 to %d", p.Typed, p.Adjuster, p.Most)
}

// Refuses returns Invalid.
func (PastStop) Refuses() Kind { return Invalid }

// NameTooLong is a name of more than MaxName characters.
type NameTooLong struct{ Characters int }

func (n NameTooLong) Error() string { return fmt.Sprintf("the name has %d characters", n.Characters) }

// Refuses returns Invalid.
func (NameTooLong) Refuses() Kind { return Invalid }

// BadMark is a mark of the balance off its scale, and where in the corner.
type BadMark struct{ Where Where }

func (b BadMark) Error() string { return fmt.Sprintf("the mark of the %s is not -3 to 3", b.Where) }

// Refuses returns Invalid.
func (BadMark) Refuses() Kind { return Invalid }

// NoRemedy is a complaint that the trade has no remedy for.
type NoRemedy struct{ What What }

func (n NoRemedy) Error() string { return fmt.Sprintf("there is no remedy for %s", n.What) }

// Refuses returns Invalid.
func (NoRemedy) Refuses() Kind { return Invalid }
