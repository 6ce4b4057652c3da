package coaching

import (
	"context"
	"strings"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
)

func studentsCommand() bot.Command {
	return declare(bot.Command{Name: "coach students", Help: "Your students, or one of them with clicks, log and feel", Role: tuning.CoachRole,
		Private: true, Writes: true}, listStudents)
}

type studentsOptions struct {
	Member string   `name:"member" help:"the member's name" source:"members"`
	Part   lookPart `name:"part" help:"of one student: all there is to see"`
	bot.CarOption
	bot.MoreOption
}

// findStudent finds the member a coach names, and refuses when they are not the
// coach's student.
func findStudent(ctx context.Context, call call, name string) (tuning.Member, error) {
	m, err := call.Book.FindMember(ctx, name)
	if err != nil {
		return m, err
	}
	t, known, err := findTie(ctx, call, m.Person)
	if err == nil && (!known || t.Coach != call.Owner() || !t.Holds()) {
		err = bot.Problemf(tuning.Forbidden, "%s is not your student: offer it with /coach ask, and wait until they accept.", m.Name)
	}
	return m, err
}

// noStudents is said to a coach who has none.
var noStudents = bot.Reply{Title: "No students yet", Text: "Offer to coach a member with /coach ask."}

// studentsLook says what a coach saw who was shown the list.
const studentsLook = "the list of students: last feel, complaint, change and event"

// listStudents shows all of a coach's students, a button each, and notes that
// the coach looked.
func listStudents(ctx context.Context, call call, o studentsOptions) (bot.Reply, error) {
	if o.Member != "" {
		return lookAt(ctx, call, o)
	}
	students, err := call.Book.Students(ctx, call.Owner())
	if err != nil || len(students) == 0 {
		return noStudents, err
	}
	reply := bot.Reply{Title: say.Count(len(students), "student", "students")}
	var lines, shown []string
	for _, s := range students {
		if !s.Holds() {
			reply.Notes = append(reply.Notes, s.Name+": has not accepted yet")
			continue
		}
		lines = append(lines, phone.Clip(lineOf(call, s), longestStudent))
		shown = append(shown, s.Student)
		reply.Actions = append(reply.Actions, ofStudent(s.Name, "/coach students", s))
	}
	reply.Text, reply.View.Each = strings.Join(lines, "\n"), len(lines)
	return o.Paged(reply, "/coach students"), call.Book.LookedThrough(ctx, call.Owner(), shown, studentsLook)
}

// longestStudent is the longest line of a student, in columns.
const longestStudent = 300

// lineOf is a student's line in the list.
func lineOf(call call, s tuning.Student) string {
	name := s.Name
	if s.Others {
		name += ", " + s.Car.Name
	}
	return name + ": " + say.Small(say.Student(s, call.Zone(), call.Now()))
}

// ofStudent is a button whose line names a student, and a thing of theirs that it
// is about: by name where it is read, by key where it is pressed, for two students
// may bear one name.
func ofStudent(label, line string, s tuning.Student, about ...bot.Named) bot.Action {
	a := bot.Button(label, line, about...)
	a.Press = a.Line() + " member:" + bot.Quote(s.Student)
	a.Ask += " member:" + bot.Quote(s.Name)
	return a
}
