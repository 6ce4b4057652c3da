package tuning

import "time"

// Case is all that the record holds of a car that an answer needs: the car
// with its dampers, where its clicks stand, and what was done lately.
type Case struct {
	Car     Car
	Setting Setting
	History History
	Event   Event // the one the car is at today, zero for none
}

// Logged is one line of a car's log: a feel or a note where there is one,
// otherwise a change.
type Logged struct {
	Change Change
	Feel   *Feel
	Note   *CarNote
	ByName string // how the person who made it is known today
	Event  string // the name of the event it belongs to, "" for none
}

// At is when the line was written.
func (l Logged) At() time.Time {
	switch {
	case l.Feel != nil:
		return l.Feel.At
	case l.Note != nil:
		return l.Note.At
	}
	return l.Change.At
}

// Given is an advice as it was given, and what became of it.
type Given struct {
	Advice   Advice
	Setting  Setting // where the clicks stood when it was given
	Car      Car     // its car, with dampers, as it is now
	Stands   Setting // where the clicks stand now
	Notes    string  // the notes of the car's newest feel, "" for none
	Coach    string  // the coach who suggested it, "" for the bot's own
	Applied  int     // the remedy that was applied, 0 for none yet
	Declined bool    // the student declined the suggestion
	Change   int64   // the change that applying it made
}
