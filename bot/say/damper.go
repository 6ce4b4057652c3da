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

// DamperKind is the kind of damper that a car has: "two-way", "one-way front,
// two-way rear".
func DamperKind(car tuning.Car) string {
	front, rear := car.Dampers[tuning.Front], car.Dampers[tuning.Rear]
	switch {
	case !front.Fitted() || !rear.Fitted():
		return "not known"
	case front.Ways == rear.Ways:
		return fmt.Sprintf("%s-way", front.Ways)
	}
	return fmt.Sprintf("%s-way front with %s-way rear", front.Ways, rear.Ways)
}

// DampersShortly says in one line what dampers a car has: "two-way, 16 clicks
// from hard".
func DampersShortly(car tuning.Car) string {
	front, rear := car.Dampers[tuning.Front], car.Dampers[tuning.Rear]
	switch {
	case !front.Fitted() && !rear.Fitted():
		return "dampers not known"
	case front == rear:
		return damperShortly(front)
	}
	return "front " + damperShortly(front) + "; rear " + damperShortly(rear)
}

func damperShortly(d tuning.Damper) string {
	if !d.Fitted() {
		return "not known"
	}
	if n, same := sameRange(d); same {
		return fmt.Sprintf("%s-way, %s from %s", d.Ways, Count(n, "click", "clicks"), d.Count)
	}
	var ranges []string
	for _, a := range d.Adjusters() {
		ranges = append(ranges, fmt.Sprint(d.Range[a]))
	}
	return fmt.Sprintf("%s-way, %s clicks from %s", d.Ways, strings.Join(ranges, "/"), d.Count)
}
