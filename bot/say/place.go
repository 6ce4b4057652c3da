package say

import (
	"fmt"
	"strings"
	"time"

	"detent/tuning"
	"detent/tuning/learn"
)

// This file says what a place remembers of a car.

// dayWords is how a day long past is said.
const dayWords = "2 Jan 2006"

// PlaceShortly says in a line each what to know before the car is at the place
// again, what matters most first.
func PlaceShortly(m tuning.PlaceMemory, tries []learn.Try, weather tuning.Weather, zone *time.Location) []string {
	var lines []string
	for _, b := range m.For(weather) {
		where := m.Visit.Place
		if b.Weather != "" {
			where += ", " + string(b.Weather)
		}
		lines = append(lines, fmt.Sprintf("%s: best grip %d (%s), with %s.", where, b.Grip, b.At.In(zone).Format(dayWords), stoodShortly(m, b.Stood)))
	}
	if together := helpedThere(tries); len(together) > 0 {
		lines = append(lines, "Helped there: "+timesHelped(together[0])+".")
	}
	if best, same := m.LastIsBest(); !same {
		lines = append(lines, fmt.Sprintf("Left there last (%s) with %s.", m.Visit.Ends.In(zone).Format(dayWords), stoodShortly(m, m.Last)))
	} else if len(m.Best) > 1 {
		lines = append(lines, fmt.Sprintf("Left there last (%s) as at the best%s.", m.Visit.Ends.In(zone).Format(dayWords), inWeather(best.Weather)))
	}
	return lines
}

// Place says all of it: the bests with where the clicks stood, how they were left
// and what helped.
func Place(m tuning.PlaceMemory, tries []learn.Try, zone *time.Location, imperial bool) []string {
	var lines []string
	for _, b := range m.Best {
		lines = append(lines, bestFeel(b.FeltThere, zone, imperial))
		lines = append(lines, stoodWhole(m, b.Stood)...)
	}
	if len(m.Best) == 0 {
		lines = append(lines, "Nobody said how it felt there.")
	}
	left := fmt.Sprintf("Left there last (%s, %s)", m.Visit.Name, m.Visit.Ends.In(zone).Format(dayWords))
	if best, same := m.LastIsBest(); same {
		lines = append(lines, fmt.Sprintf("%s as at the best%s.", left, inWeather(best.Weather)))
	} else {
		lines = append(append(lines, left+":"), stoodWhole(m, m.Last)...)
	}
	together := helpedThere(tries)
	if len(together) == 0 {
		return append(lines, "Nothing that was turned there was felt as better.")
	}
	lines = append(lines, "What helped there:")
	for _, t := range together {
		lines = append(lines, Capital(timesHelped(t))+".")
	}
	return lines
}

// bestFeel says how a best felt: "Best in the dry: grip 8, exit neutral (Spring
// day, 16 May 2026)."
func bestFeel(f tuning.FeltThere, zone *time.Location, imperial bool) string {
	f.Better = "" // that was against the run before it
	if string(f.Conditions) == string(f.Weather) {
		f.Conditions = ""
	}
	return fmt.Sprintf("Best%s: grip %d%s (%s, %s).", inWeather(f.Weather), f.Grip,
		strings.Replace(Feel(f.Feel, imperial), ": ", ", ", 1), f.Event, f.At.In(zone).Format(dayWords))
}

// helpedThere are the remedies that helped, those that did most often first.
func helpedThere(tries []learn.Try) (helped []learn.Together) {
	const most = 5
	for _, t := range learn.TogetherOf(tries) {
		if t.Helped > 0 && len(helped) < most {
			helped = append(helped, t)
		}
	}
	return helped
}

// timesHelped says how often a remedy helped: "rear rebound stiffer for understeer
// on entry, 2 of 3 times".
func timesHelped(t learn.Together) string {
	return fmt.Sprintf("%s for %s, %d of %s", Recipe(t.Key), Complaint(t.Complaint), t.Helped, Count(t.Tries, "time", "times"))
}

// inWeather is " in the dry", and nothing where nobody said.
func inWeather(w tuning.Weather) string {
	if w == "" {
		return ""
	}
	return " in the " + string(w)
}

// stoodShortly says where the clicks stood by what stands elsewhere today: "rear
// rebound 12 from hard (10 today)".
func stoodShortly(m tuning.PlaceMemory, then tuning.Stood) string {
	if doubt := standingDoubt(m, then); doubt != "" {
		return doubt
	}
	const mostParts = 3 // adjusters told one by one
	var parts []string
	for _, g := range groups(m.Car, m.Toward(then)) {
		parts = append(parts, g.sayThen(m.Car))
	}
	switch {
	case len(parts) > mostParts:
		parts = []string{manyElsewhere(m.Toward(then))}
	case len(parts) == 0 && then.Refitted == [tuning.Axles]bool{}:
		return "the clicks as they stand today"
	case len(parts) == 0:
		parts = []string{"the other end as it stands today"}
	}
	return AllOf(append(parts, refitted(then)...))
}

// manyElsewhere says how far many adjusters stood from today: "16 adjusters 3 to
// 6 stiffer than today".
func manyElsewhere(moves []tuning.Move) string {
	words, least, most := fmt.Sprintf("%d adjusters ", len(moves)), moves[0].Clicks(), moves[0].Clicks()
	for _, m := range moves {
		if m.Turn() != moves[0].Turn() {
			return words + "elsewhere than today"
		}
		least, most = min(least, m.Clicks()), max(most, m.Clicks())
	}
	if least != most {
		words += fmt.Sprintf("%d to ", least)
	}
	return fmt.Sprintf("%s%d %s than today", words, most, moves[0].Turn())
}

// standingDoubt says why the clicks of then cannot be told, "" where they can.
func standingDoubt(m tuning.PlaceMemory, then tuning.Stood) string {
	switch {
	case then.Refitted == [tuning.Axles]bool{true, true}:
		return "other dampers than it has now, so the clicks of then do not count"
	case then.Unrecorded:
		return "clicks that nobody had told me"
	case m.Today.Unrecorded:
		return "clicks that I cannot compare: nobody has told me where they stand today"
	}
	return ""
}

// refitted says at which end the dampers are others than then.
func refitted(then tuning.Stood) (words []string) {
	for axle, other := range then.Refitted {
		if other {
			words = append(words, fmt.Sprintf("other %s dampers than now", tuning.Axle(axle)))
		}
	}
	return words
}

// stoodWhole says where all clicks stood and what to turn to go back there.
func stoodWhole(m tuning.PlaceMemory, then tuning.Stood) []string {
	switch {
	case then.Refitted == [tuning.Axles]bool{true, true}:
		return []string{"It had other dampers then, so those clicks do not count any more."}
	case then.Unrecorded:
		return []string{"Nobody had told me where the clicks stood."}
	}
	var lines []string
	for axle := range tuning.Axle(tuning.Axles) {
		if then.Refitted[axle] {
			lines = append(lines, fmt.Sprintf("%s: other dampers then, so those clicks do not count any more.", Capital(axle.String())))
			continue
		}
		lines = append(lines, axleStood(m, axle, then.Setting))
	}
	moves := m.Toward(then)
	switch {
	case m.Today.Unrecorded:
		return append(lines, "Nobody has told me where the clicks stand today: /clicks set does.")
	case len(moves) == 0:
		return append(lines, "It stands there today.")
	}
	if back := Moves(m.Car, moves); len([]rune(back)) <= longHeading {
		lines = append(lines, "To go back there: "+Small(back)+".")
	}
	return lines
}

// axleStood says where an axle stood, as its member counts, and where it stands
// today if that is elsewhere: "Front, from hard: bump 8; rebound 10 left and 9
// right (10 today)."
func axleStood(m tuning.PlaceMemory, axle tuning.Axle, at tuning.Setting) string {
	d := m.Car.Dampers[axle]
	var stands []string // in the order shown
	names := map[string][]string{}
	for _, a := range d.Adjusters() {
		stand := countedSides(d, a, axle, at)
		if today := countedSides(d, a, axle, m.Today.Setting); today != stand && !m.Today.Unrecorded {
			stand += " (" + today + " today)"
		}
		if names[stand] == nil {
			stands = append(stands, stand)
		}
		names[stand] = append(names[stand], d.Label(a))
	}
	for i, stand := range stands {
		name := AllOf(names[stand])
		if len(names[stand]) > 2 && len(stands) == 1 {
			name = "every adjuster"
		}
		stands[i] = name + " " + stand
	}
	return fmt.Sprintf("%s, from %s: %s.", Capital(axle.String()), d.Count, strings.Join(stands, "; "))
}

// countedSides is where an adjuster of an axle stands, left and right apart when
// they differ.
func countedSides(d tuning.Damper, a tuning.Adjuster, axle tuning.Axle, at tuning.Setting) string {
	left, right := d.Counted(a, at[axle.Corners()[0]][a]), d.Counted(a, at[axle.Corners()[1]][a])
	if left != right {
		return fmt.Sprintf("%d left and %d right", left, right)
	}
	return fmt.Sprint(left)
}

// sayThen says where a group goes, and where it is now: "rear rebound 12 from
// hard (10 today)".
func (g group) sayThen(car tuning.Car) string {
	d, a := car.Dampers[g.first.Corner.Axle()], g.first.Adjuster
	if g.rear != nil {
		r := car.Dampers[tuning.Rear]
		return fmt.Sprintf("front and rear %s %d and %s (%d and %d today)", d.Label(a), d.Counted(a, g.first.To), r.Shown(a, g.rear.To),
			d.Counted(a, g.first.From), r.Counted(a, g.rear.From))
	}
	place := g.place
	if len(place) > len("FL") { // a corner stays in capitals
		place = Small(place)
	}
	return fmt.Sprintf("%s %s %s (%d today)", place, d.Label(a), d.Shown(a, g.first.To), d.Counted(a, g.first.From))
}
