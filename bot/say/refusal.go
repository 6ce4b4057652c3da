package say

import (
	"fmt"

	"detent/tuning"
	"detent/tuning/calendar"
	"detent/tuning/figures"
	"detent/tuning/unit"
)

// Refusal is the sentence that a member reads of a refusal, and what to do about
// it. ok is false for a refusal that has none here.
func Refusal(r tuning.Refusal) (sentence string, ok bool) {
	for _, of := range []func(tuning.Refusal) string{plainRefusal, thingRefusal, eventRefusal, damperRefusal, figureRefusal, outageForMembers} {
		if sentence := of(r); sentence != "" {
			return sentence, true
		}
	}
	return "", false
}

// OperatorRefusal is Refusal for whoever runs the program, who may be told where
// its database is and what it lacks.
func OperatorRefusal(r tuning.Refusal) (sentence string, ok bool) {
	if sentence := outageForOperators(r); sentence != "" {
		return sentence, true
	}
	return Refusal(r)
}

// plainRefusals are the sentences of what its name tells whole.
var plainRefusals = map[tuning.Plain]string{
	tuning.NoName:          `Give it a name, for example name:"Blue hatch".`,
	tuning.UnprintableName: "That name holds an invisible or direction-changing character; type it again with letters, digits and spaces.",
	tuning.UnsprungTooMuch: "The unsprung masses are too large beside the mass of the car: give them for one corner, for example unsprung-front:36kg.",

	tuning.NoWays:       "Say how many ways the damper has: ways:one, two, three or four.",
	tuning.NoCount:      "Say which stop the maker counts from: count:hard or count:soft.",
	tuning.NoMoves:      "Say what the single adjuster moves: moves:rebound or moves:both.",
	tuning.NeedlessMove: "Leave out moves: only a one-way damper needs it.",
	tuning.BadStep:      "A step is 1 to 9 clicks; small steps keep the car readable.",

	tuning.NoAxle:       "Say which end: axle:front or axle:rear.",
	tuning.BadGrip:      "Give the grip a mark from 1 (none) to 10 (the most this car has had): grip:6.",
	tuning.BadLap:       "Give the lap time as minutes and seconds, for example lap:1:23.4.",
	tuning.NotesTooLong: fmt.Sprintf("Keep the notes under %d characters.", tuning.MaxNotes),

	tuning.TurnsNothing:   "That turns nothing: the clicks stand there already.",
	tuning.BeyondStop:     "That is past the stop: look with /clicks show.",
	tuning.ClicksMoved:    "The clicks no longer stand where this change starts: look with /clicks show and ask again.",
	tuning.TakenBack:      "That change has been taken back already: look with /log.",
	tuning.AdviceSpent:    "That advice was applied or declined already: ask again with /symptom.",
	tuning.AxleUnfitted:   "The dampers of that axle are not known yet: use /damper fit first.",
	tuning.SearchUnderWay: "A grip search is under way already: go on with /sweep run, or end it with /sweep stop.",
	tuning.SearchGone:     "That grip search is not there any more: begin one with /sweep start.",
	tuning.DraftGone:      "That line is no longer kept: type it again.",
	tuning.UnkeepableText: "That text holds a character that cannot be kept: type it again.",
	tuning.LeaseTaken:     "The lease has run out and another has taken it over.",
	tuning.TooManyAtOnce:  "Many people are changing this right now. Try again in a moment.",
}

func plainRefusal(r tuning.Refusal) string {
	if p, ok := r.(tuning.Plain); ok {
		return plainRefusals[p]
	}
	return ""
}

// figureRefusal is about what is told of a car, and what the vehicle model makes
// of it.
func figureRefusal(r tuning.Refusal) string {
	switch r := r.(type) {
	case tuning.OutOfBounds:
		f := r.Figure
		return fmt.Sprintf("%s lies between %s and %s, for example %s:%s.", f.Name,
			unit.Show(f.Of, f.Low, false), unit.Show(f.Of, f.High, false), f.Name, unit.Typed(f.Of, f.Usual))
	case tuning.NameTooLong:
		return fmt.Sprintf("That name has %d characters; use at most %d.", r.Characters, tuning.MaxName)
	case tuning.BadMark:
		return fmt.Sprintf("Mark the %s from -3 (pushes wide) over 0 (neutral) to +3 (comes round).", r.Where)
	case tuning.NoRemedy:
		return fmt.Sprintf("I know no remedy for %s; /help symptom lists the complaints.", r.What)
	case calendar.NoZone:
		return fmt.Sprintf("I know no time zone %s: name one by continent and city, for example Europe/Berlin, or UTC.", Echo(r.Name))
	case figures.HeavyWheels:
		return fmt.Sprintf("The %s wheels weigh more than the %s axle carries: correct the mass, the front share or unsprung-%s with /car edit.", r.Axle, r.Axle, r.Axle)
	case figures.Unanswered:
		return "The vehicle model cannot " + task(r) + ": " + r.Err.Error() + "."
	}
	return ""
}

// task says what the vehicle model was to do.
func task(u figures.Unanswered) string {
	switch u.Task {
	case figures.UseTable:
		return "use the " + u.Axle.String() + " force table"
	case figures.MakeDamper:
		return "make the " + u.Axle.String() + " damper"
	case figures.FindWindow:
		return "find the " + u.Axle.String() + " window"
	case figures.PlaceClick:
		return "place today's click in the window"
	case figures.CompareGrip:
		return "compare the grip"
	case figures.CompareMechanism:
		return "say how much this remedy changes"
	case figures.Drive:
		return "drive this car"
	case figures.DriveBumps:
		return "drive this car over a bumpy road"
	case figures.DriveRough:
		return "drive this car over a rough road"
	case figures.DriveKerb:
		return "drive this car over a kerb"
	}
	return "answer for this car"
}
