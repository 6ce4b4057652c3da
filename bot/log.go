package bot

import (
	"context"
	"fmt"
	"strings"
	"time"

	"detent/tuning"
)

func logCommands() []Command {
	return []Command{{Name: "log", Help: "What was changed, newest first", Private: true, Answer: showLog, Options: []Option{
		carOption, {Name: "page", Help: "which page, 1 is the newest", Kind: Whole, Min: 1, Max: 100000}}}}
}

func showLog(ctx context.Context, call Call) (Reply, error) {
	car, err := call.theCar(ctx)
	if err != nil {
		return Reply{}, err
	}
	page := max(1, call.Args.Whole("page"))
	entries, more, err := call.Book.Log(ctx, car, page)
	if err != nil {
		return Reply{}, err
	}
	if len(entries) == 0 && page > 1 {
		return Reply{}, tuning.Problemf(tuning.NotFound, "The log of %s has no page %d: try a smaller number.", car.Name, page)
	}
	reply := Reply{Title: "Log of " + car.Name, Text: "Nothing changed yet."}
	zone := zoneOf(call.Club)
	var lines []string
	for _, e := range entries {
		lines = append(lines, sayEntry(car, e, zone, call.owner()))
	}
	if len(lines) > 0 {
		reply.Text = strings.Join(lines, "\n")
	}
	if more {
		reply.Actions = []Action{{"Older", aim(fmt.Sprintf("/log page:%d", page+1), car)}}
	}
	return reply, nil
}

// sayEntry says one change: when, what and why.
func sayEntry(car tuning.Car, e tuning.Logged, zone *time.Location, reader string) string {
	c := e.Change
	what := sayMoves(car, moved(c.Moves))
	switch {
	case c.Reason == tuning.ByFitting:
		what = c.Moves[0].Corner.Axle().String() + " dampers fitted, taken at the start"
	case what == "":
		what = "confirmed where it stands"
	}
	line := fmt.Sprintf("%s: %s (%s", c.At.In(zone).Format("2 Jan 15:04"), what, sayReason(c))
	if c.Complaint != nil && c.Complaint.Made() {
		line += " for " + sayComplaint(*c.Complaint)
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

// sayReason says why clicks were changed. A remedy without a complaint is what
// a coach suggested.
func sayReason(c tuning.Change) string {
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

// zoneOf is the club's time zone; the settings have checked it.
func zoneOf(club tuning.Club) *time.Location {
	zone, err := time.LoadLocation(club.Zone)
	if err != nil {
		return time.UTC
	}
	return zone
}
