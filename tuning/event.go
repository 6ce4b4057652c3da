package tuning

import "time"

// Event is a day, or a few, of a club at a track.
type Event struct {
	ID          int64
	Name        string
	Starts      time.Time
	Ends        time.Time
	Place       string
	Surface     Surface
	Weather     Weather // expected, "" is not said
	Limit       int     // the most cars, 0 for no limit
	By          string  // the organiser who made it
	Cancelled   bool
	GuideAt     time.Time // when the guide is to be posted by itself, zero for by hand
	GuideHash   string    // of the guide as last posted, "" for never
	GoneCars    int       // the entries of people who have left the club for good
	GoneAnswers int       // how many of those had said how the car felt
}

// Entrant is a car entered in an event.
type Entrant struct {
	Event    int64
	Person   string
	Name     string // how the person is known today
	Car      Car
	Reminded bool // whether they want the check before the event and the question after it
	Sheet    bool // whether they want their car's sheet
	Answered bool // whether they recorded how the car felt
	Muted    bool // they want no reminders, or no messages, of any event
	NoDirect bool // the platform refused direct messages to them
}
