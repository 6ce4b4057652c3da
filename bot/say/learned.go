package say

import (
	"fmt"
	"math"
	"strings"

	"detent/tuning"
	"detent/tuning/learn"
)

// Learned says what the record knows of a remedy on a car: "On your car 3 clicks
// of rear rebound helped 4 of 5 times: about half a mark better, give or take
// half." Whose is "your" or "this".
func Learned(car tuning.Car, t learn.Told, whose string) string {
	switch {
	case t.Tries > 0:
		several := len(t.Turns) != 1 || t.Turns[0].Clicks > 1
		return fmt.Sprintf("On %s car %s %s%s.", whose, sayClicks(car, t.Turns), sayHelped(t.Helped, t.Tries, several), sayExpected(t.Helped, t, ": "))
	case t.Club.Tries > 0:
		return fmt.Sprintf("Nothing tried on %s car yet; in this club it %s.", whose, sayHelped(t.Club.Helped, t.Club.Tries, false))
	}
	return fmt.Sprintf("Nothing tried on %s car yet.", whose)
}

// LearnedOrder says why the order is a car's own, in one short line: by what one
// of the remedies did there.
func LearnedOrder(car tuning.Car, t learn.Told) string {
	words := fmt.Sprintf("Your own order: %s %s", sayAdjusters(car, t.Turns), sayHelped(t.Helped, t.Tries, len(t.Turns) > 1))
	if t.Helped > 0 {
		words += ", " + sayEffect(t, false)
	}
	return words + "."
}

// Effect says what a car has learned of a remedy: "Understeer on entry: rear
// rebound 3 stiffer helped 4 of 5 times, about half a mark better, give or take
// half".
func Effect(car tuning.Car, e learn.Effect) string {
	return fmt.Sprintf("%s %s%s", Capital(EffectName(car, e)), sayHelped(e.Told.Helped, e.Told.Tries, false), sayExpected(e.Told.Helped, e.Told, ", "))
}

// EffectName names a remedy that a car has learned something of: "understeer on
// entry: rear rebound 3 stiffer".
func EffectName(car tuning.Car, e learn.Effect) string {
	turns := e.Told.Turns
	if len(turns) == 0 {
		return Complaint(e.Complaint) + ": " + Recipe(e.Key)
	}
	words := sayAdjusters(car, turns)
	for i, t := range turns {
		switch {
		case i == 0:
			words += fmt.Sprintf(" %d", t.Clicks)
		case t.Clicks != turns[0].Clicks:
			words += fmt.Sprintf(" and %d", t.Clicks)
		}
	}
	return fmt.Sprintf("%s: %s %s", Complaint(e.Complaint), words, turns[0].Turn)
}

// Together says what was turned on several cars and how often it helped, and how
// much where enough cars of enough people know it.
func Together(t learn.Together) string {
	words := fmt.Sprintf("%s for %s: %s", Capital(Recipe(t.Key)), Complaint(t.Complaint), sayHelped(t.Helped, t.Tries, false))
	if t.Club.Cars > 0 {
		words += sayExpected(t.Helped, learn.Tell(nil, t.Estimate, learn.Sums{}, t.Club), ", ")
	}
	return words
}

// Recipe names a remedy of the table without how far, which differs from car to
// car: "rear rebound stiffer".
func Recipe(key learn.Key) string {
	if key.Part == tuning.WholeCar {
		return fmt.Sprintf("%s %s all round", key.Job, key.Turn)
	}
	return fmt.Sprintf("%s %s %s", key.Part, key.Job, key.Turn)
}

// sayClicks says how far was turned: "3 clicks of rear rebound", "3 clicks of
// front bump and 2 of rear bump".
func sayClicks(car tuning.Car, turns []learn.Turned) string {
	if len(turns) == 2 && turns[0].Clicks == turns[1].Clicks {
		return Count(turns[0].Clicks, "click", "clicks") + " of " + sayAdjusters(car, turns)
	}
	var parts []string
	for i, t := range turns {
		far := Count(t.Clicks, "click", "clicks")
		if i > 0 {
			far = fmt.Sprint(t.Clicks)
		}
		parts = append(parts, far+" of "+sayAdjusters(car, turns[i:i+1]))
	}
	return AllOf(parts)
}

// sayAdjusters names what turned: "rear rebound", "front and rear bump".
func sayAdjusters(car tuning.Car, turns []learn.Turned) string {
	label := func(t learn.Turned) string { return car.Dampers[t.Axle].Label(t.Adjuster) }
	if len(turns) == 2 && label(turns[0]) == label(turns[1]) {
		return fmt.Sprintf("%s and %s %s", turns[0].Axle, turns[1].Axle, label(turns[0]))
	}
	var words []string
	for _, t := range turns {
		words = append(words, fmt.Sprintf("%s %s", t.Axle, label(t)))
	}
	return AllOf(words)
}

// sayHelped says how often something helped: "helped 4 of 5 times", or where it
// never did "has not helped in 2 tries"; several things "have not".
func sayHelped(helped, tries int, several bool) string {
	switch {
	case helped > 0:
		return fmt.Sprintf("helped %d of %s", helped, Count(tries, "time", "times"))
	case several:
		return "have not helped in " + Count(tries, "try", "tries")
	}
	return "has not helped in " + Count(tries, "try", "tries")
}

// sayExpected says an estimate with its doubt, behind how often it helped. Where
// it never did and is still expected to, by the table and the other cars of the
// club, it says that.
func sayExpected(helped int, t learn.Told, between string) string {
	if helped == 0 && !t.Hardly && t.Mean > 0 {
		between = "; I still expect "
	}
	return between + sayEffect(t, true)
}

// sayEffect says an estimate in halves of a mark, with its doubt where that is
// wanted.
func sayEffect(t learn.Told, doubt bool) string {
	words, unit := "hardly anything", " a mark"
	if !t.Hardly {
		way := "better"
		if t.Mean < 0 {
			way = "worse"
		}
		words, unit = "about "+sayMarks(math.Abs(t.Mean), " a")+" "+way, ""
	}
	switch {
	case !doubt:
		return words
	case t.Half == 0:
		return words + ", give or take a quarter"
	case t.Half == 0.5:
		return words + ", give or take half" + unit
	}
	return words + ", give or take " + strings.TrimSuffix(strings.TrimSuffix(sayMarks(t.Half, ""), " marks"), " mark")
}

// sayMarks says marks in halves: "half a mark", "one and a half marks".
func sayMarks(marks float64, article string) string {
	whole := int(marks)
	count := []string{"no", "one", "two", "three", "four", "five", "six"}
	switch half := marks > float64(whole); {
	case whole == 0 && half:
		return "half" + article + " mark"
	case whole >= len(count):
		return fmt.Sprintf("%g marks", marks)
	case half:
		return count[whole] + " and a half marks"
	case whole == 1:
		return "one mark"
	default:
		return count[whole] + " marks"
	}
}
