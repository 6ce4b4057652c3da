package store

import (
	"context"
	"fmt"
	"strings"
	"time"

	"detent/tuning"
)

// overtaken is the Conflict of a request that comes after another change of
// the same car, 0 for its newest: it says who turned what.
func (b *Book) overtaken(ctx context.Context, car tuning.Car, change int64) error {
	entries, err := b.changes(ctx, car.ID, `and ($2 = 0 or c.id = $2) order by c.id desc limit 1`, change)
	if err != nil {
		return err
	}
	cars, err := b.cars(ctx, `where id = $1`, car.ID)
	if err != nil {
		return err
	}
	if len(entries) == 0 || len(cars) == 0 {
		return tuning.Problemf(tuning.Conflict, "The dampers of %s are not known yet: use /damper fit.", car.Name)
	}
	entry := entries[0]
	return tuning.Problemf(tuning.Conflict, "%s %s %s: look with /clicks show and ask again.",
		b.maker(entry), deed(entry.Change, cars[0]), ago(b.now.Sub(entry.Change.At)))
}

// maker is who made a change, as said to whoever asks.
func (b *Book) maker(entry tuning.Logged) string {
	switch {
	case entry.Change.By == b.who.Person:
		return "You"
	case entry.ByName == "":
		return "Someone"
	}
	return entry.ByName
}

// deed says what a change did: "set the front rebound from 10 to 8 from hard".
func deed(change tuning.Change, car tuning.Car) string {
	if change.Reason == tuning.ByFitting {
		return "fitted other dampers"
	}
	turned := turns(change.Moves, car)
	if more := len(turned) - 2; more > 0 {
		turned = append(turned[:2], fmt.Sprintf("%d more", more))
	}
	last := len(turned) - 1
	if last == 0 {
		return "set " + turned[0]
	}
	return "set " + strings.Join(turned[:last], ", ") + " and " + turned[last]
}

// turns says moves in the car's own counting, left and right of an axle
// together where they moved alike.
func turns(moves []tuning.Move, car tuning.Car) []string {
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
