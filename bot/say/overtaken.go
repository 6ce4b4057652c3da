package say

import (
	"fmt"
	"time"

	"detent/tuning"
)

// overtaken says who turned what before a request came.
func overtaken(o tuning.Overtaken) string {
	return fmt.Sprintf("%s %s %s: look with /clicks show and ask again.", whoChanged(o), whatChanged(o.Logged.Change, o.Car), ago(o.Ago))
}

func whoChanged(o tuning.Overtaken) string {
	switch {
	case o.Own:
		return "You"
	case o.Logged.ByName == "":
		return "Someone"
	}
	return o.Logged.ByName
}

// whatChanged says what a change did: "set the front rebound from 10 to 8 from
// hard".
func whatChanged(change tuning.Change, car tuning.Car) string {
	if change.Reason == tuning.ByFitting {
		return "fitted other dampers"
	}
	turned := turnedFromTo(change.Moves, car)
	if more := len(turned) - 2; more > 0 {
		turned = append(turned[:2], fmt.Sprintf("%d more", more))
	}
	return "set " + AllOf(turned)
}

// turnedFromTo says moves in the car's own counting, left and right of an axle
// together where they moved alike.
func turnedFromTo(moves []tuning.Move, car tuning.Car) []string {
	var said []string
	left := map[string]int{} // where in said a left corner stands, by how it moved
	for _, m := range moves {
		d := car.Dampers[m.Corner.Axle()]
		how := fmt.Sprintf("%s from %d to %s", m.Adjuster.Label(), d.Counted(m.Adjuster, m.From), d.Shown(m.Adjuster, m.To))
		pair := m.Corner.Axle().String() + " " + how
		if i, both := left[pair]; both {
			said[i] = "the " + pair
			continue
		}
		left[pair] = len(said)
		said = append(said, "the "+m.Corner.String()+" "+how)
	}
	return said
}

// ago says how long since something happened.
func ago(d time.Duration) string {
	switch {
	case d < 2*time.Minute:
		return "a moment ago"
	case d < 2*time.Hour:
		return fmt.Sprintf("%d minutes ago", d/time.Minute)
	case d < 48*time.Hour:
		return fmt.Sprintf("%d hours ago", d/time.Hour)
	}
	return fmt.Sprintf("%d days ago", d/(24*time.Hour))
}
