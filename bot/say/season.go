package say

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"detent/tuning"
	"detent/tuning/unit"
)

// Day says a day of the club's clocks without its year: "16 May".
func Day(t time.Time, zone *time.Location) string { return t.In(zone).Format("2 Jan") }

// YearOfCar says how much of a year is on record of a car: "34 changes, 28 runs
// noted, 6 events".
func YearOfCar(s tuning.CarSeason) string {
	return fmt.Sprintf("%s, %s noted, %s", Count(s.Turned(), "change", "changes"),
		Count(len(s.Feels), "run", "runs"), Count(len(s.Events), "event", "events"))
}

// BestLap says the quickest lap at a place: "Best lap at Windy Hill, dry: 1:42.600
// on 16 May".
func BestLap(l tuning.BestLap, zone *time.Location) string {
	words := "Best lap at " + cmp.Or(l.Place, "no event")
	if l.Conditions != "" {
		words += ", " + string(l.Conditions)
	}
	return words + ": " + unit.ShowLap(l.Lap) + " on " + Day(l.At, zone)
}

// GripOver says how the grip went over a year: "Grip 5 at first, 8 at last, 9 at
// best (12 Sep)". It is "" where nothing was felt.
func GripOver(feels []tuning.Feel, zone *time.Location) string {
	if len(feels) == 0 {
		return ""
	}
	first, last, best := feels[0], feels[len(feels)-1], feels[0]
	for _, f := range feels {
		if f.Grip > best.Grip {
			best = f
		}
	}
	if len(feels) == 1 {
		return fmt.Sprintf("Grip %d (%s)", first.Grip, Day(first.At, zone))
	}
	return fmt.Sprintf("Grip %d at first, %d at last, %d at best (%s)", first.Grip, last.Grip, best.Grip, Day(best.At, zone))
}

// Resting says where the adjusters stood that a year left alone: "Not turned: front
// bump 11 from hard, rear bump 9 from hard". It is "" where all were turned.
func Resting(car tuning.Car, lanes []tuning.Lane) string {
	var words []string
	for _, l := range lanes {
		if l.Turned() {
			continue
		}
		d, at := car.Dampers[l.Axle], l.Steps[0]
		stands := d.Shown(l.Adjuster, at.Left)
		if at.Left != at.Right {
			stands = fmt.Sprintf("%d left, %s right", d.Counted(l.Adjuster, at.Left), d.Shown(l.Adjuster, at.Right))
		}
		words = append(words, fmt.Sprintf("%s %s %s", l.Axle, d.Label(l.Adjuster), stands))
	}
	if len(words) == 0 {
		return ""
	}
	return "Not turned: " + strings.Join(words, ", ")
}

// Sample says how often something was done: "54 times, 12 cars of 11 people", or
// "" where too few stand behind it to tell.
func Sample(s tuning.Sample) string {
	if !s.Told() {
		return ""
	}
	return fmt.Sprintf("%s, %s of %s", Count(s.Times, "time", "times"), Count(s.Cars, "car", "cars"), Count(s.People, "person", "people"))
}

// YearOfClub says how often a club entered, asked, applied and answered in a year,
// a line each, as far as that may be told.
func YearOfClub(s tuning.ClubSeason) []string {
	var lines []string
	for _, one := range []struct {
		what   string
		sample tuning.Sample
	}{{"Entered", s.Entered}, {"Asked what to turn", s.Asked}, {"Applied a remedy", s.Applied}, {"Said how a run felt", s.Felt}} {
		if words := Sample(one.sample); words != "" {
			lines = append(lines, one.what+": "+words+".")
		}
	}
	if len(lines) < 4 {
		lines = append(lines, "Not told: what fewer than three cars of three people stand behind.")
	}
	return lines
}
