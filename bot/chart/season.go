package chart

import (
	"fmt"
	"slices"
	"strings"

	"detent/bot/typeset"
)

// Season is a car's year: each adjuster step by step, how the car gripped under
// it, and the events marked. What was done stands in order from left to right,
// and a day is as wide as what was done on it: on a calendar a year of track days
// would be a few upright lines.
type Season struct {
	Title  string
	Lanes  []Lane   // from the top
	Grips  []Grip   // from the left
	Days   []Day    // from the left, one beginning where the other ends
	Events []string // their names; the first has the number 1
}

// Lane is one adjuster of Season.
type Lane struct {
	Scale
	Steps []Step // from the left
}

// Step is where the two sides of an adjuster stand from a place on, in clicks
// from full soft.
type Step struct{ At, Left, Right int }

// Grip is the mark of a run.
type Grip struct {
	At, Mark int
	Damp     bool // or wet
}

// Day is what was done on a day, from a place to another.
type Day struct {
	From, To int
	Date     string // "16 May"; "" where it is that of the one before
	Event    int    // its number, 0 for none
}

// The grip's marks.
const (
	leastGrip = 1
	mostGrip  = 10
)

// key says how the lanes are read.
func (s Season) key() string {
	words := "Stiffer is up; a click is as tall everywhere"
	if slices.ContainsFunc(s.Lanes, Lane.apart) {
		words += "; dashed: the right side"
	}
	return words + "."
}

// numbered are the events with their numbers.
func (s Season) numbered() []string {
	words := make([]string, len(s.Events))
	for i, e := range s.Events {
		words[i] = fmt.Sprintf("%d %s", i+1, e)
	}
	return words
}

// reach is the softest and the hardest click of a lane.
func (l Lane) reach() (low, high int) {
	low, high = l.Steps[0].Left, l.Steps[0].Left
	for _, s := range l.Steps {
		low, high = min(low, s.Left, s.Right), max(high, s.Left, s.Right)
	}
	return low, high
}

// apart tells whether the sides ever stood apart.
func (l Lane) apart() bool {
	return slices.ContainsFunc(l.Steps, func(s Step) bool { return s.Left != s.Right })
}

// say says where the adjuster stood at first and at last, and how far it went.
func (l Lane) say() string {
	first, last := l.Steps[0], l.Steps[len(l.Steps)-1]
	low, high := l.reach()
	from, to := l.counted(low), l.counted(high)
	return fmt.Sprintf("%s: %s → %s from %s, within %d to %d", l.Name, l.sides(first), l.sides(last), l.stop(), min(from, to), max(from, to))
}

// sides is a step as the member counts: "12", or "12/14" where the sides stand
// apart.
func (l Lane) sides(s Step) string {
	if s.Left != s.Right {
		return fmt.Sprintf("%d/%d", l.counted(s.Left), l.counted(s.Right))
	}
	return fmt.Sprint(l.counted(s.Left))
}

// Alt says the picture in words.
func (s Season) Alt() string {
	parts := []string{typeset.Plain(s.Title) + ": what was turned and felt, in order."}
	for _, l := range s.Lanes {
		parts = append(parts, l.say()+".")
	}
	if n := len(s.Grips); n > 0 {
		low, high := s.Grips[0].Mark, s.Grips[0].Mark
		for _, g := range s.Grips {
			low, high = min(low, g.Mark), max(high, g.Mark)
		}
		parts = append(parts, fmt.Sprintf("Grip, 1 to 10: %d at first, %d at last, within %d to %d; runs: %d.", s.Grips[0].Mark, s.Grips[n-1].Mark, low, high, n))
	}
	if len(s.Events) > 0 {
		parts = append(parts, "Events: "+typeset.Plain(strings.Join(s.numbered(), ", "))+".")
	}
	return short(strings.Join(parts, " "), MaxAlt)
}
