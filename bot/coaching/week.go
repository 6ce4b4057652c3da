package coaching

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

func weekCommand() bot.Command {
	return declare(bot.Command{Name: "coach week", Help: "What your students did in the last seven days", Role: tuning.CoachRole,
		Private: true, Writes: true}, showWeek)
}

type weekOptions struct {
	Until *time.Time `name:"until" help:"the end of the seven days, in the club's local time, when it is not now"`
	bot.MoreOption
}

// showWeek shows a coach their digest, and notes that they looked.
func showWeek(ctx context.Context, call call, o weekOptions) (bot.Reply, error) {
	until := call.Now()
	if o.Until != nil {
		until, _ = calendar.Settle(*o.Until, call.Zone())
	}
	d, err := Week(ctx, call.Book, call.Owner(), until.In(call.Zone()).AddDate(0, 0, -7), until)
	if err != nil {
		return bot.Reply{}, err
	}
	d.Reply.View.From = o.From
	return d.Reply, call.Book.LookedThrough(ctx, call.Owner(), d.Students, WeekLook)
}

// WeekLook says what a coach saw who was shown a digest.
const WeekLook = "the week's changes and feel"

// WeekBook is what a digest is made from.
type WeekBook interface {
	bot.Cars
	bot.Cases
	bot.Members
	bot.Events
	bot.Roster
	Club(ctx context.Context) (tuning.Club, error)
}

// Week is a coach's digest of a span of time: who changed what, whose last
// change made it worse, who is at the end of an adjuster, who has not answered
// after an event, and how the cars felt, in marks and words.
func Week(ctx context.Context, book WeekBook, coach string, from, to time.Time) (bot.Digest, error) {
	w, err := readWeek(ctx, book, coach, from, to)
	if err != nil {
		return bot.Digest{}, err
	}
	var d bot.Digest
	var lines []string
	for _, s := range w.students {
		said, news, err := w.of(ctx, book, s)
		if err != nil {
			return bot.Digest{}, err
		}
		lines = append(lines, said...)
		d.Students = append(d.Students, s.Student)
		d.News = d.News || news
	}
	if len(lines) == 0 {
		d.Reply = noStudents
		return d, nil
	}
	d.Reply = bot.MoreOption{}.Paged(bot.Reply{Title: "The week of " + say.Count(len(d.Students), "student", "students"), Text: strings.Join(lines, "\n"),
		Actions: []bot.Action{bot.Button("Your students", "/coach students")}}, w.line())
	return d, nil
}

// week is what was read of all students at once.
type week struct {
	reader   bot.Call // whose zone and units hold
	from, to time.Time
	students []tuning.Student
	felt     map[string][]tuning.Feel // by student, oldest first
	silent   map[string]string        // the event that a student owes an answer to
}

func readWeek(ctx context.Context, book WeekBook, coach string, from, to time.Time) (w week, err error) {
	if over := to.Sub(to.Truncate(time.Minute)); over > 0 { // a line tells no seconds
		to = to.Add(time.Minute - over)
	}
	w = week{from: from, to: to, felt: map[string][]tuning.Feel{}}
	if w.reader.Club, err = book.Club(ctx); err != nil {
		return w, err
	}
	if w.reader.Member, err = book.Member(ctx, coach); err != nil {
		return w, err
	}
	all, err := book.Students(ctx, coach)
	if err != nil {
		return w, err
	}
	w.students = slices.DeleteFunc(all, func(s tuning.Student) bool { return !s.Holds() })
	people := make([]string, len(w.students))
	for i, s := range w.students {
		people[i] = s.Student
	}
	feels, err := book.FeltBetween(ctx, people, from, to)
	if err != nil {
		return w, err
	}
	for _, f := range feels {
		w.felt[f.Person] = append(w.felt[f.Person], f)
	}
	w.silent, err = unanswered(ctx, book, from, to)
	return w, err
}

// line asks the same week again, whatever the time is then.
func (w week) line() string {
	return "/coach week until:" + bot.Quote(w.to.In(w.reader.Zone()).Format("2006-01-02 15:04"))
}

// of says one student's week, in a line and one for each feel, and whether there
// is anything new in it.
func (w week) of(ctx context.Context, book WeekBook, s tuning.Student) (lines []string, news bool, err error) {
	cars, err := book.Cars(ctx, s.Student)
	if err != nil {
		return nil, false, err
	}
	var parts []string
	for _, car := range tuning.Running(cars) {
		c, err := book.Case(ctx, s.Student, car.Name)
		if err != nil {
			return nil, false, err
		}
		if changes := w.changes(c); len(changes) > 0 {
			parts, news = append(parts, weekOfCar(c, changes)), true
		}
		if ends := atEnds(c); ends != "" {
			parts = append(parts, c.Car.Name+" is at the end of "+ends)
		}
	}
	if event := w.silent[s.Student]; event != "" {
		parts, news = append(parts, "has not said how it felt at "+event), true
	}
	felt := w.felt[s.Student]
	if len(felt) > 0 {
		parts, news = append(parts, "felt "+say.Count(len(felt), "time", "times")), true
	}
	if len(parts) == 0 {
		parts = []string{"nothing new"}
	}
	lines = []string{s.Name + ": " + strings.Join(parts, "; ")}
	for _, f := range felt {
		lines = append(lines, "- "+w.day(f, cars)+": "+say.Felt(f, w.reader.Imperial()))
	}
	return lines, news, nil
}

// day says when a car felt so, and which, where there are several.
func (w week) day(f tuning.Feel, cars []tuning.Car) string {
	day := f.At.In(w.reader.Zone()).Format("2 Jan")
	i := slices.IndexFunc(cars, func(car tuning.Car) bool { return car.ID == f.Car })
	if len(cars) < 2 || i < 0 {
		return day
	}
	return day + ", " + cars[i].Name
}

// changes are those of a car in the week, newest first.
func (w week) changes(c tuning.Case) []tuning.Change {
	return slices.DeleteFunc(slices.Clone(c.History.Changes), func(ch tuning.Change) bool {
		return !ch.At.After(w.from) || ch.At.After(w.to)
	})
}

// weekOfCar says what became of a car that was changed.
func weekOfCar(c tuning.Case, changes []tuning.Change) string {
	last := changes[0]
	said := fmt.Sprintf("%s, %s", c.Car.Name, say.Count(len(changes), "change", "changes"))
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
