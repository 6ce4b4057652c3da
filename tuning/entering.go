package tuning

import "fmt"

// Overlaps is another event that runs at the same time.
type Overlaps struct{ Event string }

func (o Overlaps) Error() string { return fmt.Sprintf("%q runs at that time", o.Event) }

// Refuses returns Conflict.
func (Overlaps) Refuses() Kind { return Conflict }

// Cancelled is an event that no car can enter any more.
type Cancelled struct{ Event string }

func (c Cancelled) Error() string { return fmt.Sprintf("%q is cancelled", c.Event) }

// Refuses returns Conflict.
func (Cancelled) Refuses() Kind { return Conflict }

// Full is an event whose places are all taken.
type Full struct {
	Event  string
	Places int
}

func (f Full) Error() string { return fmt.Sprintf("the %d places of %q are taken", f.Places, f.Event) }

// Refuses returns Conflict.
func (Full) Refuses() Kind { return Conflict }

// Entered is a car that is in an event already.
type Entered struct{ Car, Event string }

func (e Entered) Error() string { return fmt.Sprintf("%q is in %q already", e.Car, e.Event) }

// Refuses returns Conflict.
func (Entered) Refuses() Kind { return Conflict }

// NotEntered is a car that is not in an event.
type NotEntered struct{ Car, Event string }

func (n NotEntered) Error() string { return fmt.Sprintf("%q is not in %q", n.Car, n.Event) }

// Refuses returns NotFound.
func (NotEntered) Refuses() Kind { return NotFound }
