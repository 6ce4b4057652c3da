package say

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"detent/tuning"
)

// KeptName is the name of saved clicks within a sentence.
func KeptName(k tuning.Kept) string { return "“" + k.Name + "”" }

// KeptOn is the day on which clicks were saved: "16 May 2026".
func KeptOn(k tuning.Kept, zone *time.Location) string { return k.At.In(zone).Format("2 Jan 2006") }

// KeptDay says when and where clicks were saved: "16 May 2026, Windy Hill, dry".
func KeptDay(k tuning.Kept, zone *time.Location) string {
	return strings.Join(append([]string{KeptOn(k, zone)}, keptWhere(k)...), ", ")
}

// KeptFelt says where clicks were saved and what was felt with them: "Windy Hill,
// dry: grip 7".
func KeptFelt(k tuning.Kept, imperial bool) string {
	felt := Felt(k.Felt, imperial)
	if where := keptWhere(k); len(where) > 0 {
		return strings.Join(where, ", ") + ": " + felt
	}
	return felt
}

// keptWhere are the place and the weather of saved clicks, as far as known.
func keptWhere(k tuning.Kept) (words []string) {
	for _, w := range []string{k.Place, string(k.Weather)} {
		if w != "" {
			words = append(words, w)
		}
	}
	return words
}

// Felt says what was felt with some clicks, the notes clipped: "grip 7, exit
// pushes wide 1, “turns in now”", or that nothing was.
func Felt(f *tuning.Feel, imperial bool) string {
	if f == nil {
		return "not felt yet"
	}
	short := *f
	short.Notes = Legible(f.Notes)
	return feltLine(short, imperial)
}

// Marks is Felt without what was measured and noted, for a list.
func Marks(f *tuning.Feel) string {
	if f == nil {
		return Felt(nil, false)
	}
	return Felt(&tuning.Feel{Grip: f.Grip, Entry: f.Entry, Mid: f.Mid, Exit: f.Exit, Hop: f.Hop, Lap: f.Lap}, false)
}

// Roundings says where a setting did not come whole to a car's dampers: what was
// rounded to a whole click, and what has no counterpart. Corners and adjusters
// that came alike are said in one breath.
func Roundings(car tuning.Car, carried []tuning.Carried) []string {
	type breath struct {
		axle tuning.Axle
		say  string
	}
	var order []breath
	adjusters := map[breath][]string{}
	for _, c := range carried {
		axle := c.Corner.Axle()
		said := carriage(car.Dampers[axle], c)
		if said == "" {
			continue
		}
		b := breath{axle, said}
		name := car.Dampers[axle].Label(c.Adjuster)
		if c.How == tuning.NoTarget {
			name = c.Adjuster.Label()
		}
		if adjusters[b] == nil {
			order = append(order, b)
		}
		if !slices.Contains(adjusters[b], name) {
			adjusters[b] = append(adjusters[b], name)
		}
	}
	var lines []string
	for _, b := range order {
		lines = append(lines, fmt.Sprintf("%s %s: %s.", Capital(b.axle.String()), AllOf(adjusters[b]), b.say))
	}
	return lines
}

// carriage says what became of one adjuster, "" where it came whole. Positions
// are in the counting of the damper it came to.
func carriage(d tuning.Damper, c tuning.Carried) string {
	counted := func(of int, from float64) string {
		if d.Count == tuning.FromHard {
			from = float64(of) - from
		}
		return strings.TrimRight(strings.TrimRight(strconv.FormatFloat(from, 'f', 2, 64), "0"), ".")
	}
	clicks := d.Range[c.Adjuster]
	switch {
	case c.How == tuning.NoSource:
		return "left where it stands, since the other dampers have none"
	case c.How == tuning.NoTarget:
		return "left out, since these dampers have none"
	case c.Rounded():
		return fmt.Sprintf("%s of %d clicks from %s is %s of %d, rounded to %s", counted(c.Of, float64(c.At)), c.Of, d.Count,
			counted(clicks, c.Exact), clicks, counted(clicks, float64(c.To)))
	}
	return ""
}
