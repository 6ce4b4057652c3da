package say

import (
	"fmt"
	"time"

	"detent/tuning"
)

// LogEntry says one change: when, what and why.
func LogEntry(car tuning.Car, e tuning.Logged, zone *time.Location, reader string) string {
	c := e.Change
	what := Moves(car, tuning.Turned(c.Moves))
	switch {
	case c.Reason == tuning.ByFitting:
		what = c.Moves[0].Corner.Axle().String() + " dampers fitted, taken at the start"
	case what == "":
		what = "confirmed where it stands"
	}
	line := fmt.Sprintf("%s: %s (%s", c.At.In(zone).Format("2 Jan 15:04"), what, Reason(c))
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
	return reasonWords[c.Reason]
}

// reasonWords say why clicks were changed.
var reasonWords = map[tuning.Reason]string{
	tuning.ByFitting: "fitted", tuning.ByBaseline: "start", tuning.ByRemedy: "remedy",
	tuning.ByHand: "by hand", tuning.ByUndo: "undo", tuning.BySearch: "grip search",
}
