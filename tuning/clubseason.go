package tuning

import "time"

// EnoughToTell is of how many cars, and of how many people, something must be
// known before a club is told of it: fewer could be told apart.
const EnoughToTell = 3

// ClubSeason is what the record holds of a club's year.
type ClubSeason struct {
	Events  []Turnout // that have begun, soonest first, cancelled ones aside
	Coming  []Event   // of the year that have not, soonest first
	Entered Sample    // cars in those that have begun
	Asked   Sample    // complaints that were answered
	Applied Sample    // remedies that were turned
	Felt    Sample    // runs that were told of

	Earlier time.Time // the start of the last event before the year, zero for none
	Later   time.Time // of the first after it, zero for none
}

// Turnout is who came to an event, by number.
type Turnout struct {
	Event Event
	Cars  int    // those of people who have left the club for good among them
	Felt  Sample // runs told of there
}

// Sample is how often something was done, and how many cars of how many people
// stand behind it.
type Sample struct{ Times, Cars, People int }

// Told tells whether it may be said of the club.
func (s Sample) Told() bool { return s.Cars >= EnoughToTell && s.People >= EnoughToTell }
