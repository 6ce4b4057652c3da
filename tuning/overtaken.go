package tuning

import (
	"fmt"
	"time"
)

// Overtaken is a request to change a car that somebody else has changed since
// it was composed.
type Overtaken struct {
	Car    Car    // as it is now
	Logged Logged // the change that came first
	Own    bool   // whoever asks made it themselves
	Ago    time.Duration
}

func (o Overtaken) Error() string {
	return fmt.Sprintf("change %d of %q came first, %v ago", o.Logged.Change.ID, o.Car.Name, o.Ago)
}

// Refuses returns Conflict.
func (Overtaken) Refuses() Kind { return Conflict }

// Moved is a move that does not start where its adjuster stands.
type Moved struct{ Move Move }

func (m Moved) Error() string {
	return fmt.Sprintf("the %s %s does not stand at %d", m.Move.Corner, m.Move.Adjuster, m.Move.From)
}

// Refuses returns Conflict.
func (Moved) Refuses() Kind { return Conflict }
