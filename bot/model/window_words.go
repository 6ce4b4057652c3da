package model

import (
	"fmt"

	"detent/tuning"
	"detent/tuning/figures"
	"detent/tuning/ride"
)

// This file has the sentences about windows.

// levelSurface is said of a surface on which the model hardly tells clicks apart.
func levelSurface(s tuning.Surface) string {
	return fmt.Sprintf("On a %s track these clicks grip alike: let feel decide", s)
}

// sayWindowRow is one line of the table of windows: window, best, and what
// today's clicks lose in grip and in a lap.
func sayWindowRow(d tuning.Damper, w figures.Window) string {
	head := string(w.Surface) + ": "
	if !w.Advises() {
		return head + "hardly tells these clicks apart"
	}
	loses := fmt.Sprintf("loses %s, %.2f s", loss(w), float64(w.Costs()))
	if w.GivesAway == 0 {
		loses = "loses nothing"
	}
	if w.AtStop() {
		return head + "no peak in the range; " + loses
	}
	return fmt.Sprintf("%swindow %d to %d, best %d; %s", head, d.Counted(w.Counted, w.From), d.Counted(w.Counted, w.To), d.Counted(w.Counted, w.Best), loses)
}

// loss is today's loss in per cent, two decimals at most.
func loss(w figures.Window) string { return fmt.Sprintf("%.2f %%", 100*float64(w.GivesAway)) }

// sayWindowHead heads an axle's lines of the table.
func sayWindowHead(d tuning.Damper, w figures.Window, end string) string {
	return fmt.Sprintf("%s %s %d from %s:", end, d.Label(w.Counted), d.Counted(w.Counted, w.Today), d.Count)
}

// trialWords say what grip is lost to.
var trialWords = map[ride.Trial]string{
	ride.BodyTrial: "the body (roll and float)",
	ride.RoadTrial: "the road (rough ground)",
	ride.KerbTrial: "the kerb (one sharp bump)",
}

// sayCosts says what today's clicks lose grip to.
func sayCosts(windows [tuning.Axles]figures.Window) []string {
	var notes []string
	for axle, w := range windows {
		if w.Advises() && w.CostsMost != ride.None {
			notes = append(notes, fmt.Sprintf("On a %s track the %s loses most to %s.", w.Surface, tuning.Axle(axle), trialWords[w.CostsMost]))
		}
	}
	return notes
}
