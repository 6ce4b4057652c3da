package say

import (
	"strings"

	"detent/tuning"
	"detent/tuning/unit"
)

// figureWords are the words for each figure of a car, by its name without the
// end: as it is shown, and what it is for a member who is to type it. %s stands
// for the end.
var figureWords = map[string]struct{ shown, help string }{
	"mass":         {"mass", "mass of the car with driver"},
	"front-share":  {"front share", "share of the weight on the front axle"},
	"wheelbase":    {"wheelbase", "wheelbase"},
	"track":        {"track", "%s track"},
	"cg-height":    {"centre of gravity", "height of the centre of gravity"},
	"spring":       {"spring", "rate of one %s spring"},
	"ratio":        {"motion ratio", "%s motion ratio: spring travel over wheel travel"},
	"bar":          {"bar", "%s anti-roll bar: wheel force per wheel travel difference"},
	"unsprung":     {"unsprung", "unsprung mass of one %s corner"},
	"tyre-rate":    {"tyre", "vertical rate of one %s tyre"},
	"torque-front": {"torque at the front", "four-wheel drive: share of the torque at the front"},
}

// FigureHelp says what a figure is, for a member who is to type it.
func FigureHelp(f tuning.Figure) string {
	return strings.ReplaceAll(figureWords[f.Base].help, "%s", string(f.Part))
}

// Figures says what is known of a car's figures: one line for the whole car and
// one for each end, without those of which nothing is known.
func Figures(car tuning.Car, imperial bool) []string {
	var lines []string
	for _, part := range []tuning.Part{tuning.WholeCar, tuning.FrontPart, tuning.RearPart} {
		var known []string
		for _, f := range tuning.Figures {
			if v, ok := f.Get(car); ok && f.Part == part {
				known = append(known, figureWords[f.Base].shown+" "+unit.Show(f.Of, v, imperial))
			}
		}
		if len(known) == 0 {
			continue
		}
		line := strings.Join(known, ", ") + "."
		if part != tuning.WholeCar {
			line = string(part) + ": " + line
		}
		lines = append(lines, Capital(line))
	}
	return lines
}
