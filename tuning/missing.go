package tuning

import "fmt"

// Thing is a sort of thing that a request can name.
type Thing string

// The things.
const (
	CarThing    Thing = "car"
	EventThing  Thing = "event"
	MemberThing Thing = "member"
	AdviceThing Thing = "advice"
	KeptThing   Thing = "kept setting"

	// SuggestionThing is an advice by a coach that waits to be applied or declined.
	SuggestionThing Thing = "suggestion"
)

// Missing is a thing that is not there. Name is "" where none was said and the
// usual one was meant.
type Missing struct {
	What Thing
	Name string
}

func (m Missing) Error() string { return fmt.Sprintf("there is no %s %q", m.What, m.Name) }

// Refuses returns NotFound.
func (Missing) Refuses() Kind { return NotFound }

// Gone is a thing that was there when the request read it, and is not any more.
type Gone struct {
	What Thing
	Name string
}

func (g Gone) Error() string { return fmt.Sprintf("the %s %q is gone", g.What, g.Name) }

// Refuses returns NotFound.
func (Gone) Refuses() Kind { return NotFound }

// Ambiguous is a name that several things bear, or without a Name a request that
// may mean several things. Among are the first of them.
type Ambiguous struct {
	What  Thing
	Name  string
	Among []string
}

func (a Ambiguous) Error() string {
	return fmt.Sprintf("the %s %q may be any of %q", a.What, a.Name, a.Among)
}

// Refuses returns Conflict for a name, and Invalid where none was said.
func (a Ambiguous) Refuses() Kind {
	if a.Name == "" {
		return Invalid
	}
	return Conflict
}

// Taken is a name that another thing bears.
type Taken struct {
	What Thing
	Name string // "" where it is not known
}

func (t Taken) Error() string { return fmt.Sprintf("there is another %s %q", t.What, t.Name) }

// Refuses returns Conflict.
func (Taken) Refuses() Kind { return Conflict }

// NoSearch is a car without a grip search under way in that weather.
type NoSearch struct {
	Car     string
	Weather Weather
}

func (n NoSearch) Error() string {
	return fmt.Sprintf("no grip search is under way on %q in the %s", n.Car, n.Weather)
}

// Refuses returns NotFound.
func (NoSearch) Refuses() Kind { return NotFound }
