package coaching

import (
	"context"
	"fmt"
	"strings"
	"time"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
)

func weekCommand() bot.Command {
	return declare(bot.Command{Name: "coach week", Help: "What your students did in the last seven days", Role: tuning.CoachRole,
		Private: true, Writes: true}, showWeek)
}

// showWeek shows a coach their digest, and notes that they looked.
func showWeek(ctx context.Context, call call, o bot.MoreOption) (bot.Reply, error) {
	d, err := Week(ctx, call.Book, call.Owner(), call.Now().AddDate(0, 0, -7), call.Now())
	if err != nil {
		return bot.Reply{}, err
	}
	for _, student := range d.Students {
		if err := call.Book.Looked(ctx, call.Owner(), student, WeekLook); err != nil {
			return bot.Reply{}, err
		}
	}
	d.Reply.View.From = o.From
	return d.Reply, nil
}

// WeekLook is what a coach has looked at who has been shown a digest.
const WeekLook = "the week's changes and feel"

// WeekBook is what a digest is made from.
type WeekBook interface {
	bot.Cars
	bot.Cases
	bot.Members
	bot.Events
	Coachings(ctx context.Context, person string) ([]tuning.Coaching, error)
}

// Week is a coach's digest of a span of time: who changed what, whose last
// change made it worse, who is at the end of an adjuster, who has not answered
// after an event.
func Week(ctx context.Context, book WeekBook, coach string, from, to time.Time) (bot.Digest, error) {
	ties, err := book.Coachings(ctx, coach)
	if err != nil {
		return bot.Digest{}, err
	}
	silent, err := unanswered(ctx, book, from, to)
	if err != nil {
		return bot.Digest{}, err
	}
	var d bot.Digest
	var lines []string
	for _, t := range ties {
		if t.Coach != coach || !t.Holds() {
			continue
		}
		line, turned, err := weekOf(ctx, book, t.Student, from)
		if err != nil {
			return bot.Digest{}, err
		}
		event := silent[t.Student]
		if event != "" {
			line += "; has not said how it felt at " + event
		}
		lines = append(lines, line)
		d.Students = append(d.Students, t.Student)
		d.News = d.News || turned || event != ""
	}
	if len(lines) == 0 {
		d.Reply = noStudents
		return d, nil
	}
	d.Reply = bot.MoreOption{}.Paged(bot.Reply{Title: "The week of " + say.Count(len(lines), "student", "students"), Text: strings.Join(lines, "\n"),
		Actions: []bot.Action{bot.Button("Your students", "/coach students")}}, "/coach week")
	return d, nil
}

// weekOf says one student's week in a line, and whether they turned anything.
func weekOf(ctx context.Context, book WeekBook, person string, since time.Time) (line string, turned bool, err error) {
	m, err := book.Member(ctx, person)
	if err != nil {
		return "", false, err
	}
	cars, err := book.Cars(ctx, person)
	if err != nil {
		return "", false, err
	}
	var parts []string
	for _, car := range tuning.Running(cars) {
		c, err := book.Case(ctx, person, car.Name)
		if err != nil {
			return "", false, err
		}
		if changes := changesSince(c, since); changes > 0 {
			parts, turned = append(parts, weekOfCar(c, changes)), true
		}
		if ends := atEnds(c); ends != "" {
			parts = append(parts, c.Car.Name+" is at the end of "+ends)
		}
	}
	if len(parts) == 0 {
		parts = []string{"nothing new"}
	}
	return m.Name + ": " + strings.Join(parts, "; "), turned, nil
}

func changesSince(c tuning.Case, since time.Time) (n int) {
	for _, ch := range c.History.Changes {
		if ch.At.After(since) {
			n++
		}
	}
	return n
}

// weekOfCar says what became of a car that was changed.
func weekOfCar(c tuning.Case, changes int) string {
	last := c.History.Changes[0]
	said := fmt.Sprintf("%s, %s", c.Car.Name, say.Count(changes, "change", "changes"))
	if turned := tuning.Turned(last.Moves); len(turned) > 0 {
		said += ", last: " + say.Turns(c.Car, turned)
	}
	if last.Felt == tuning.BetterNo {
		said += ", which made it worse"
	}
	return said
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
	return say.AllOf(words)
}

// unanswered maps a person to the event that ended in a span of time which they
// entered and have not said how the car felt at.
func unanswered(ctx context.Context, book WeekBook, from, to time.Time) (map[string]string, error) {
	events, err := book.Events(ctx, from)
	if err != nil {
		return nil, err
	}
	silent := map[string]string{}
	for _, e := range events {
		if e.Cancelled || e.Ends.After(to) {
			continue
		}
		entrants, err := book.Entrants(ctx, e)
		if err != nil {
			return nil, err
		}
		for _, entrant := range entrants {
			if !entrant.Answered && !entrant.Car.Retired {
				silent[entrant.Person] = e.Name
			}
		}
	}
	return silent, nil
}
