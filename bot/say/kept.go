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

// KeptDay says when and where clicks were saved: "16 May 2026, Windy Hill, dry".
func KeptDay(k tuning.Kept, zone *time.Location) string {
	return strings.Join(append([]string{k.At.In(zone).Format(dayWords)}, keptWhere(k)...), ", ")
}

// KeptFelt says where clicks were saved and what was felt with them: "Windy Hill,
// dry: grip 7".
func KeptFelt(k tuning.Kept, imperial bool) string {
	felt := FeltWith(k.Felt, imperial)
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

// FeltWith says what was felt with some clicks, the notes clipped: "grip 7, exit
// pushes wide 1, “turns in now”", or that nothing was.
func FeltWith(f *tuning.Feel, imperial bool) string {
	if f == nil {
		return "not felt yet"
	}
	short := *f
	short.Notes = Legible(f.Notes)
	return Felt(short, imperial)
}

// Marks is FeltWith without what was measured and noted, for a list.
func Marks(f *tuning.Feel) string {
	if f == nil {
		return FeltWith(nil, false)
	}
	return FeltWith(&tuning.Feel{Grip: f.Grip, Entry: f.Entry, Mid: f.Mid, Exit: f.Exit, Hop: f.Hop, Lap: f.Lap}, false)
}

// Roundings says where a setting did not come whole to a car's dampers: what was
// rounded to a whole click, and what has no counterpart. Corners and adjusters
// that came alike are said in one breath.
func Roundings(car tuning.Car, carried []tuning.Carried) []string {
	var lines []string
	for _, b := range breaths(car, carried, arrival.whole) {
		lines = append(lines, fmt.Sprintf("%s %s: %s.", Capital(b.axle.String()), AllOf(b.adjusters), b.say))
	}
	return lines
}

// OtherWork says, where clicks go from a one-way adjuster to one that moves something
// else, what it moves now.
func OtherWork(from [tuning.Axles]tuning.Damper, car tuning.Car) (lines []string) {
	for axle, now := range car.Dampers {
		switch then := from[axle]; {
		case then.Ways != 1 || now.Ways != 1 || then.Moves == now.Moves:
		case now.Moves == tuning.MovesBoth:
			lines = append(lines, fmt.Sprintf("The %s adjuster moved rebound only there; here it moves bump too.", tuning.Axle(axle)))
		default:
			lines = append(lines, fmt.Sprintf("The %s adjuster moved bump too there; here it moves rebound only.", tuning.Axle(axle)))
		}
	}
	return lines
}

// Rounded says in short what was rounded: "front 10.13 → 10; rear bump 8.53 → 9".
// whole is false where something has no counterpart, so that this is not all.
func Rounded(car tuning.Car, carried []tuning.Carried) (short string, whole bool) {
	whole = true
	var parts []string
	for _, b := range breaths(car, carried, arrival.short) {
		part := b.axle.String()
		if len(b.adjusters) < len(car.Dampers[b.axle].Adjusters()) {
			part += " " + AllOf(b.adjusters)
		}
		parts = append(parts, part+" "+b.say)
	}
	for _, c := range carried {
		whole = whole && c.How == tuning.SamePart
	}
	return strings.Join(parts, "; "), whole
}

// breath is what became of some adjusters of an axle.
type breath struct {
	axle      tuning.Axle
	say       string
	adjusters []string
}

// breaths groups the adjusters of an axle of which the same is to be said;
// adjusters of which nothing is to be said are left out.
func breaths(car tuning.Car, carried []tuning.Carried, of func(arrival) string) []breath {
	var all []breath
	for _, c := range carried {
		axle := c.Corner.Axle()
		said := of(arrival{c, car.Dampers[axle]})
		if said == "" {
			continue
		}
		i := slices.IndexFunc(all, func(b breath) bool { return b.axle == axle && b.say == said })
		if i < 0 {
			i, all = len(all), append(all, breath{axle: axle, say: said})
		}
		name := car.Dampers[axle].Label(c.Adjuster)
		if c.How == tuning.NoTarget {
			name = c.Adjuster.Label()
		}
		if !slices.Contains(all[i].adjusters, name) {
			all[i].adjusters = append(all[i].adjusters, name)
		}
	}
	return all
}

// arrival is how an adjuster of a setting came to a damper.
type arrival struct {
	tuning.Carried
	at tuning.Damper
}

// whole says what became of it, "" where it came as it was.
func (a arrival) whole() string {
	clicks := a.at.Range[a.Adjuster]
	switch {
	case a.How == tuning.NoSource:
		return "left where it stands, since the other dampers have none"
	case a.How == tuning.NoTarget:
		return "left out, since these dampers have none"
	case a.Rounded():
		return fmt.Sprintf("%s of %d clicks from %s is %s of %d, rounded to %s", a.counted(a.Of, float64(a.At)), a.Of, a.at.Count,
			a.counted(clicks, a.Exact), clicks, a.counted(clicks, float64(a.To)))
	}
	return ""
}

// short says how it was rounded, "" where it was not.
func (a arrival) short() string {
	if !a.Rounded() {
		return ""
	}
	clicks := a.at.Range[a.Adjuster]
	return a.counted(clicks, a.Exact) + " → " + a.counted(clicks, float64(a.To))
}

// counted is a part of so many clicks from full soft in the damper's counting.
func (a arrival) counted(of int, clicks float64) string {
	if a.at.Count == tuning.FromHard {
		clicks = float64(of) - clicks
	}
	return strings.TrimRight(strings.TrimRight(strconv.FormatFloat(clicks, 'f', 2, 64), "0"), ".")
}
