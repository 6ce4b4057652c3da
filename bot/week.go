package bot

import (
	"context"
	"fmt"
	"strings"
	"time"

	"detent/tuning"
)

func weekCommands() []Command {
	return []Command{{Name: "coach week", Help: "What your students did in the last seven days", Role: tuning.CoachRole,
		Private: true, Writes: true, Answer: week}}
}

// week is a coach's digest: who changed what, whose last change made it worse,
// who is at the end of an adjuster, who has not answered after an event.
func week(ctx context.Context, call Call) (Reply, error) {
	since := call.now().AddDate(0, 0, -7)
	ties, err := call.Book.Coachings(ctx, call.owner())
	if err != nil {
		return Reply{}, err
	}
	silent, err := unanswered(ctx, call, since)
	if err != nil {
		return Reply{}, err
	}
	var lines []string
	for _, t := range ties {
		if t.Coach != call.owner() || !t.Holds() {
			continue
		}
		line, err := weekOf(ctx, call, t.Student, since)
		if err != nil {
			return Reply{}, err
		}
		if event := silent[t.Student]; event != "" {
			line += "; has not said how it felt at " + event
		}
		lines = append(lines, line)
		if err := call.Book.Looked(ctx, call.owner(), t.Student, "the week's changes and feel"); err != nil {
			return Reply{}, err
		}
	}
	if len(lines) == 0 {
		return Reply{Title: "No students yet", Text: "Offer to coach a member with /coach ask."}, nil
	}
	return Reply{Title: "The week of " + count(len(lines), "student", "students"), Text: strings.Join(lines, "\n")}, nil
}

// weekOf says one student's week in a line.
func weekOf(ctx context.Context, call Call, person string, since time.Time) (string, error) {
	m, err := call.Book.Member(ctx, person)
	if err != nil {
		return "", err
	}
	cars, err := call.Book.Cars(ctx, person)
	if err != nil {
		return "", err
	}
	var parts []string
	for _, car := range active(cars) {
		c, err := call.Book.Case(ctx, person, car.Name)
		if err != nil {
			return "", err
		}
		parts = append(parts, weekOfCar(c, since)...)
	}
	if len(parts) == 0 {
		parts = []string{"nothing new"}
	}
	return m.Name + ": " + strings.Join(parts, "; "), nil
}

func weekOfCar(c tuning.Case, since time.Time) []string {
	var parts []string
	changes := 0
	for _, ch := range c.History.Changes {
		if ch.At.After(since) {
			changes++
		}
	}
	if changes > 0 {
		last := c.History.Changes[0]
		part := fmt.Sprintf("%s, %s", c.Car.Name, count(changes, "change", "changes"))
		if turned := moved(last.Moves); len(turned) > 0 {
			part += ", last: " + sayMoves(c.Car, turned)
		}
		if last.Felt == tuning.BetterNo {
			part += ", which made it worse"
		}
		parts = append(parts, part)
	}
	if ends := atEnds(c); ends != "" {
		parts = append(parts, c.Car.Name+" is at the end of "+ends)
	}
	return parts
}

// atEnds names the adjusters that stand at a stop, axle by axle.
func atEnds(c tuning.Case) string {
	var ends []string
	for axle := range tuning.Axle(tuning.Axles) {
		d := c.Car.Dampers[axle]
		for _, a := range d.Adjusters() {
			left, right := c.Setting[axle.Corners()[0]][a], c.Setting[axle.Corners()[1]][a]
			for _, stop := range []int{0, d.Range[a]} {
				if left == stop || right == stop {
					ends = append(ends, axle.String()+" "+d.Label(a))
				}
			}
		}
	}
	return andListOrNone(ends)
}

func andListOrNone(words []string) string {
	if len(words) == 0 {
		return ""
	}
	return andList(words)
}

// unanswered maps a person to the event of the time since that they entered
// and have not said how the car felt at.
func unanswered(ctx context.Context, call Call, since time.Time) (map[string]string, error) {
	events, err := call.Book.Events(ctx, since)
	if err != nil {
		return nil, err
	}
	silent := map[string]string{}
	for _, e := range events {
		if e.Cancelled || e.Ends.After(call.now()) {
			continue
		}
		entrants, err := call.Book.Entrants(ctx, e)
		if err != nil {
			return nil, err
		}
		for _, entrant := range entrants {
			if !entrant.Answered {
				silent[entrant.Person] = e.Name
			}
		}
	}
	return silent, nil
}
