package say

import (
	"strings"

	"detent/tuning"
	"detent/tuning/unit"
)

// Pressures says what was said of the tyres' pressures in as few words as hold
// it: "2.1 bar", "front 2.1 bar, rear 2 bar", "FL 2.1 bar, RR 2 bar".
func Pressures(p tuning.Pressures, imperial bool) string {
	shown := func(c tuning.Corner) string { return unit.Show(unit.OfPressure, float64(p[c]), imperial) }
	switch {
	case p[tuning.FL] == p[tuning.FR] && p[tuning.RL] == p[tuning.RR] && p[tuning.FL] == p[tuning.RL]:
		return shown(tuning.FL)
	case p[tuning.FL] == p[tuning.FR] && p[tuning.RL] == p[tuning.RR]:
		var ends []string
		for axle := range tuning.Axle(tuning.Axles) {
			if c := axle.Corners()[0]; p[c] != 0 {
				ends = append(ends, axle.String()+" "+shown(c))
			}
		}
		return strings.Join(ends, ", ")
	}
	var wheels []string
	for c := range tuning.Corner(tuning.Corners) {
		if p[c] != 0 {
			wheels = append(wheels, c.String()+" "+shown(c))
		}
	}
	return strings.Join(wheels, ", ")
}

// measured says what was measured with a feel, one thing each.
func measured(f tuning.Feel, imperial bool) (parts []string) {
	if f.Hot.Known() {
		parts = append(parts, Pressures(f.Hot, imperial)+" hot")
	}
	if f.Conditions != "" {
		parts = append(parts, string(f.Conditions))
	}
	for _, t := range []struct {
		of string
		is unit.Temperature
	}{{"air", f.Air}, {"track", f.Track}} {
		if t.is != 0 {
			parts = append(parts, t.of+" "+unit.Show(unit.OfTemperature, float64(t.is), imperial))
		}
	}
	return parts
}

// CarNote says a note about a car: "tyres: new set", "pressures 2.1 bar cold".
func CarNote(n tuning.CarNote, imperial bool) string {
	what := strings.ReplaceAll(string(n.What), "-", " ")
	if n.Pressures.Known() {
		numbers := Pressures(n.Pressures, imperial) + " " + string(n.Heat)
		switch {
		case n.What == tuning.AboutPressures && n.Text == "":
			return what + " " + numbers
		case n.Text == "":
			return what + ": " + numbers
		}
		return what + ": " + n.Text + ", " + numbers
	}
	return what + ": " + n.Text
}
