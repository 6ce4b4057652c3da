package coaching

import (
	"context"
	"fmt"
	"strings"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
)

func studentsCommand() bot.Command {
	return declare(bot.Command{Name: "coach students", Help: "Your students, or one of them with clicks, log and feel", Role: tuning.CoachRole,
		Private: true, Writes: true}, listStudents)
}

type studentsOptions struct {
	Member string `name:"member" help:"the member's name" source:"members"`
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

func listStudents(ctx context.Context, call call, o studentsOptions) (bot.Reply, error) {
	if o.Member != "" {
		return lookAt(ctx, call, o)
	}
	ties, err := call.Book.Coachings(ctx, call.Owner())
	if err != nil {
		return bot.Reply{}, err
	}
	var lines []string
	var actions []bot.Action
	for _, t := range ties {
		if t.Coach != call.Owner() {
			continue
		}
		m, err := call.Book.Member(ctx, t.Student)
		if err != nil {
			return bot.Reply{}, err
		}
		if !t.Holds() {
			lines = append(lines, m.Name+": has not accepted yet")
			continue
		}
		lines = append(lines, m.Name+": since "+t.Accepted.In(call.Zone()).Format("2 January 2006"))
		actions = append(actions, bot.Button("Look at "+m.Name, "/coach students member:"+bot.Quote(m.Name)))
	}
	if len(lines) == 0 {
		return noStudents, nil
	}
	return o.Paged(bot.Reply{Title: say.Count(len(lines), "student", "students"), Text: strings.Join(lines, "\n"), Actions: actions[:min(len(actions), 5)]}, "/coach students"), nil
}

// lookAt shows a student's car to their coach, and notes that it did.
func lookAt(ctx context.Context, call call, o studentsOptions) (bot.Reply, error) {
	m, err := findStudent(ctx, call, o.Member)
	if err != nil {
		return bot.Reply{}, err
	}
	c, err := call.Book.Case(ctx, m.Person, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	entries, _, err := call.Book.Log(ctx, c.Car, 1)
	if err != nil {
		return bot.Reply{}, err
	}
	evidence, err := call.Book.LearnedAll(ctx, c.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	if err := call.Book.Looked(ctx, call.Owner(), m.Person, c.Car.Name+": clicks, log and feel"); err != nil {
		return bot.Reply{}, err
	}
	reply := bot.Reply{Title: fmt.Sprintf("%s, %s", m.Name, c.Car.Name), Text: say.Dampers(c.Car)}
	if c.Car.Fitted() == nil {
		reply.Corners = bot.Standing(c.Car, c.Setting)
		reply.Notes = say.Standing(c)
	}
	zone := call.Zone()
	for _, e := range entries[:min(len(entries), 8)] {
		reply.Notes = append(reply.Notes, say.LogEntry(c.Car, e, zone, m.Person, call.Imperial()))
	}
	effects := evidence.Effects(c.Car, c.History, call.Club.Sizes)
	for _, e := range effects[:min(len(effects), 3)] {
		reply.Notes = append(reply.Notes, "Learned: "+say.Small(say.Effect(c.Car, e))+".")
	}
	return o.Paged(reply, "/coach students member:"+bot.Quote(m.Name)), nil
}
