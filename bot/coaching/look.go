package coaching

import (
	"cmp"
	"context"
	"slices"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
)

// lookPart is how much of a student is shown at once.
type lookPart string

// lookAll is everything, with the log and what was learned.
const lookAll lookPart = "all"

// Choices lists the parts.
func (lookPart) Choices() []string { return []string{string(lookAll)} }

// lookAt shows a student to their coach, and notes that it did: how they are
// doing and where the clicks stand, and behind Look the log. Of several cars it
// is the one they were at last, unless another is named.
func lookAt(ctx context.Context, call call, o studentsOptions) (bot.Reply, error) {
	m, err := findStudent(ctx, call, o.Member)
	if err != nil {
		return bot.Reply{}, err
	}
	s, err := studentOf(ctx, call, m)
	if err != nil {
		return bot.Reply{}, err
	}
	if o.Car = cmp.Or(o.Car, s.Car.Name); o.Car == "" {
		return bot.Reply{}, bot.Problemf(tuning.NotFound, "%s has no car here yet.", m.Name)
	}
	c, err := call.caseOf(ctx, m, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	reply := bot.Reply{Title: m.Name + ", " + c.Car.Name, Text: say.Dampers(c.Car), Actions: chosenButtons(s, c.Car)}
	if s.Car.ID == c.Car.ID {
		reply.Text = say.Student(s, call.Zone(), call.Now())
	}
	if c.Car.Fitted() == nil {
		reply.Corners, reply.Notes = bot.Standing(c.Car, c.Setting), say.Standing(c)
	}
	log, err := logOf(ctx, call, m, c)
	if err != nil {
		return bot.Reply{}, err
	}
	reply.Notes = append(reply.Notes, log...)
	if o.Part == lookAll {
		reply.Actions = reply.Actions[1:]
		reply = o.Paged(reply, "/coach students")
		reply.View.More = new(lookButton("More", s, c.Car))
	} else if reply.View.Quiet = true; s.Others {
		others, err := otherCars(ctx, call, s, c.Car)
		if err != nil {
			return bot.Reply{}, err
		}
		reply.Actions = append(reply.Actions, others...)
	}
	return reply, call.Book.LookedThrough(ctx, call.Owner(), []string{m.Person}, c.Car.Name+": clicks, log and feel")
}

// studentOf is a member as one of the coach's students.
func studentOf(ctx context.Context, call call, m tuning.Member) (tuning.Student, error) {
	students, err := call.Book.Students(ctx, call.Owner())
	if err != nil {
		return tuning.Student{}, err
	}
	i := slices.IndexFunc(students, func(s tuning.Student) bool { return s.Student == m.Person })
	if i < 0 {
		return tuning.Student{}, bot.Problemf(tuning.Forbidden, "%s is not your student.", m.Name)
	}
	return students[i], nil
}

// logOf says the newest lines of a student's log, and what the record says their
// changes did.
func logOf(ctx context.Context, call call, m tuning.Member, c tuning.Case) (lines []string, err error) {
	entries, _, err := call.Book.Log(ctx, c.Car, 1)
	if err != nil {
		return nil, err
	}
	for _, e := range entries[:min(len(entries), 8)] {
		lines = append(lines, say.LogEntry(c.Car, e, call.Zone(), m.Person, call.Imperial()))
	}
	evidence, err := call.Book.LearnedAll(ctx, c.Car)
	if err != nil {
		return nil, err
	}
	effects := evidence.Effects(c.Car, c.History, call.Club.Sizes)
	for _, e := range effects[:min(len(effects), 3)] {
		lines = append(lines, "Learned: "+say.Small(say.Effect(c.Car, e))+".")
	}
	return lines, nil
}

// chosenButtons are what a coach can do about a student: look closer, suggest a
// change, leave a note. The last two open a form.
func chosenButtons(s tuning.Student, car tuning.Car) []bot.Action {
	suggest := "/coach suggest"
	for _, option := range []string{"at", "adjuster", "to", "why"} {
		suggest += " " + option + ":" + bot.Blank
	}
	return []bot.Action{lookButton("Look", s, car), ofStudent("Suggest", suggest, s, carOf(s, car)...),
		ofStudent("Note", "/coach note text:"+bot.Blank, s)}
}

// lookButton shows everything of a student's car.
func lookButton(label string, s tuning.Student, car tuning.Car) bot.Action {
	return ofStudent(label, "/coach students part:"+string(lookAll), s, carOf(s, car)...)
}

// carOf names a student's car in a line, where they have others.
func carOf(s tuning.Student, car tuning.Car) []bot.Named {
	if !s.Others && car.Main {
		return nil
	}
	return []bot.Named{bot.OfCar(car)}
}

// otherCars are buttons for the cars that the student runs beside one.
func otherCars(ctx context.Context, call call, s tuning.Student, but tuning.Car) (buttons []bot.Action, err error) {
	cars, err := call.Book.Cars(ctx, s.Student)
	for _, car := range tuning.Running(cars) {
		if car.ID != but.ID && len(buttons) < phone.Row {
			buttons = append(buttons, ofStudent(phone.Clip(car.Name, phone.NameColumns), "/coach students", s, carOf(s, car)...))
		}
	}
	return buttons, err
}
