package say

import (
	"fmt"
	"strings"
	"time"

	"detent/tuning"
)

// LogEntry says one line of the log: when, and what was changed and why, how
// the car felt, or what a note says. Reader is the key of whoever reads it;
// what others did carries their name.
func LogEntry(car tuning.Car, e tuning.Logged, zone *time.Location, reader string, imperial bool) string {
	when := e.At().In(zone).Format("2 Jan 15:04") + ": "
	switch {
	case e.Feel != nil:
		return when + Felt(*e.Feel, imperial) + behind(e, e.Feel.Person, reader)
	case e.Note != nil:
		return when + CarNote(*e.Note, imperial) + behind(e, e.Note.Person, reader)
	}
	return when + changeLine(car, e, reader)
}

// behind says, in brackets, who wrote a line and at which event.
func behind(e tuning.Logged, by, reader string) string {
	var parts []string
	if by != reader && e.ByName != "" {
		parts = append(parts, "by "+e.ByName)
	}
	if e.Event != "" {
		parts = append(parts, e.Event)
	}
	if len(parts) == 0 {
		return ""
	}
	return " (" + strings.Join(parts, "; ") + ")"
}

// Felt says how the car felt in one line: "grip 7, exit pushes wide 1, lap 1:42.600, 2.1 bar hot, “turns in now”".
func Felt(f tuning.Feel, imperial bool) string {
	line := fmt.Sprintf("grip %d", f.Grip)
	if more := strings.TrimPrefix(Feel(f, imperial), ": "); more != "" {
		line += ", " + more
	}
	if f.Notes != "" {
		line += ", “" + f.Notes + "”"
	}
	return line
}

// changeLine says what was turned and why.
func changeLine(car tuning.Car, e tuning.Logged, reader string) string {
	c := e.Change
	what := Turns(car, tuning.Turned(c.Moves))
	switch {
	case c.Reason == tuning.ByFitting:
		what = c.Moves[0].Corner.Axle().String() + " dampers fitted, taken at the start"
	case what == "":
		what = "confirmed where it stands"
	}
	line := fmt.Sprintf("%s (%s", what, Reason(c))
	if c.Complaint != nil && c.Complaint.Made() {
		line += " for " + Complaint(*c.Complaint)
	}
	if c.Undone {
		line += ", taken back later"
	}
	if c.By != reader && e.ByName != "" {
		line += ", by " + e.ByName
	}
	switch c.Felt {
	case tuning.BetterYes:
		line += "; felt better"
	case tuning.BetterNo:
		line += "; felt worse"
	case tuning.BetterSame:
		line += "; felt the same"
	}
	if e.Event != "" {
		line += "; " + e.Event
	}
	return line + ")"
}

// Reason says why clicks were changed. A remedy without a complaint is what
// a coach suggested.
func Reason(c tuning.Change) string {
	if c.Reason == tuning.ByRemedy && c.Complaint == nil {
		return "coach's suggestion"
	}
	if c.Corrects() {
		return "record corrected"
	}
	return reasonWords[c.Reason]
}

// reasonWords say why clicks were changed.
var reasonWords = map[tuning.Reason]string{
	tuning.ByFitting: "fitted", tuning.ByBaseline: "start", tuning.ByRemedy: "remedy",
	tuning.ByHand: "by hand", tuning.ByUndo: "undo", tuning.BySearch: "grip search",
	tuning.ByLoading: "loaded setting", tuning.ByCopying: "copied from another car",
}
