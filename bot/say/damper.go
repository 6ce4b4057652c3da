package say

import (
	"fmt"
	"strings"

	"detent/tuning"
)

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
			line += map[tuning.Moves]string{tuning.MovesRebound: ", moving rebound only", tuning.MovesBoth: ", moving bump and rebound together"}[d.Moves]
		}
		if t := car.Curves[axle]; t != nil {
			line += fmt.Sprintf(", force table of %d clicks", len(t.Clicks))
		}
		lines = append(lines, line+".")
	}
	return strings.Join(lines, "\n")
}
