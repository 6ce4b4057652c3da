package say

import (
	"fmt"
	"strings"

	"detent/tuning"
)

// sameRange is how many clicks every adjuster has, where all have as many.
func sameRange(d tuning.Damper) (clicks int, same bool) {
	for _, a := range d.Adjusters() {
		if clicks != 0 && clicks != d.Range[a] {
			return 0, false
		}
		clicks = d.Range[a]
	}
	return clicks, true
}

// Dampers says what dampers a car has.
func Dampers(car tuning.Car) string {
	var lines []string
	for axle, d := range car.Dampers {
		end := Capital(tuning.Axle(axle).String())
		if !d.Fitted() {
			lines = append(lines, end+": dampers not known yet.")
			continue
		}
		var parts []string
		for _, a := range d.Adjusters() {
			parts = append(parts, fmt.Sprintf("%s %d clicks", d.Label(a), d.Range[a]))
		}
		line := fmt.Sprintf("%s: %s-way, %s, counted from %s", end, d.Ways, strings.Join(parts, ", "), d.Count)
		if d.Ways == 1 {
			adjusts := map[tuning.Moves]string{tuning.MovesRebound: "rebound only", tuning.MovesBoth: "bump and rebound together"}[d.Moves]
			line = fmt.Sprintf("%s: one-way, %d clicks counted from %s, adjusts %s", end, d.Range[tuning.Rebound], d.Count, adjusts)
		} else if n, same := sameRange(d); same {
			line = fmt.Sprintf("%s: %s-way, %d clicks each, counted from %s", end, d.Ways, n, d.Count)
		}
		if t := car.Curves[axle]; t != nil {
			line += fmt.Sprintf(", force table of %d clicks", len(t.Clicks))
		}
		lines = append(lines, line+".")
	}
	return strings.Join(lines, "\n")
}
