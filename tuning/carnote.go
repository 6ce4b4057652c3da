package tuning

import "time"

// Subject is what a note about a car is about.
type Subject string

// The subjects, in the order they are offered.
const (
	AboutPressures  Subject = "pressures"
	AboutTyres      Subject = "tyres"
	AboutSprings    Subject = "springs"
	AboutBars       Subject = "bars"
	AboutRideHeight Subject = "ride-height"
	AboutAlignment  Subject = "alignment"
	AboutBrakes     Subject = "brakes"
	AboutOther      Subject = "other"
)

// Refits tells whether a note on the subject means that the car got other parts,
// so that what was felt before says little about what follows. New dampers are a
// fitting, not a note: see ByFitting.
func (s Subject) Refits() bool { return s == AboutTyres || s == AboutSprings }

// CarNote is what was changed on a car other than clicks.
type CarNote struct {
	ID        int64
	Car       int64
	Person    string
	At        time.Time
	Event     int64 // the event the car was entered in, 0 for none
	What      Subject
	Text      string // "" only where there are pressures
	Heat      Heat   // "" where there are none
	Pressures Pressures
}
