package coaching

import (
	"context"
	"slices"
	"strings"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
)

// studentsNamed name the students that something is for.
type studentsNamed struct {
	Member string `name:"member" help:"the student's name" required:"yes" source:"members"`
	And    string `name:"and" help:"more students, with commas between them" source:"people"`
}

// mostStudents is how many are written to at once.
const mostStudents = 20

// find finds them, in the order they are named, each once. It refuses when one
// of them is not the coach's student.
func (o studentsNamed) find(ctx context.Context, call call) ([]tuning.Member, error) {
	ties, err := call.Book.Coachings(ctx, call.Owner())
	if err != nil {
		return nil, err
	}
	var students []tuning.Member
	var others []string
	for _, name := range append([]string{o.Member}, strings.Split(o.And, ",")...) {
		if name = strings.TrimSpace(name); name == "" {
			continue
		}
		m, err := call.Book.FindMember(ctx, name)
		if err != nil {
			return nil, err
		}
		theirs := func(t tuning.Coaching) bool { return t.Coach == call.Owner() && t.Student == m.Person && t.Holds() }
		switch {
		case slices.ContainsFunc(students, func(had tuning.Member) bool { return had.Person == m.Person }):
		case !slices.ContainsFunc(ties, theirs):
			others = append(others, phone.Clip(m.Name, phone.NameColumns))
		case len(students) == mostStudents:
			return nil, bot.Problemf(tuning.Limit, "Name at most %d students at once.", mostStudents)
		default:
			students = append(students, m)
		}
	}
	switch len(others) {
	case 0:
		return students, nil
	case 1:
		return nil, bot.Problemf(tuning.Forbidden, "%s is not your student: offer it with /coach ask, and wait until they accept.", others[0])
	}
	return nil, bot.Problemf(tuning.Forbidden, "%s are not your students: offer it with /coach ask, and wait until they accept.", say.AllOf(others))
}

// namesOf are students' names in a sentence.
func namesOf(students []tuning.Member) string {
	names := make([]string, len(students))
	for i, m := range students {
		names[i] = phone.Clip(m.Name, phone.NameColumns)
	}
	return say.AllOf(names)
}

// fewNames is how many students a heading names.
const fewNames = 3

// headed heads a reply with what was done for which students: by their names,
// or where they are many by their number with the names below.
func headed(reply bot.Reply, done string, students []tuning.Member) bot.Reply {
	if len(students) <= fewNames {
		reply.Title = done + " " + namesOf(students)
		return reply
	}
	reply.Title = done + " " + say.Count(len(students), "student", "students")
	reply.Text = namesOf(students) + ".\n" + reply.Text
	reply.View.Size = phone.List
	return reply
}
