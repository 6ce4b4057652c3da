package bot

import (
	"context"
	"fmt"
	"strings"

	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

// student finds the member a coach names, and refuses when they are not the
// coach's student.
func student(ctx context.Context, call Call) (tuning.Member, error) {
	m, err := call.Book.FindMember(ctx, call.Args.Text("member"))
	if err != nil {
		return m, err
	}
	t, known, err := tie(ctx, call, m.Person)
	if err == nil && (!known || t.Coach != call.owner() || !t.Holds()) {
		err = tuning.Problemf(tuning.Forbidden, "%s is not your student: offer it with /coach ask, and wait until they accept.", m.Name)
	}
	return m, err
}

// noStudents is said to a coach who has none.
var noStudents = Reply{Title: "No students yet", Text: "Offer to coach a member with /coach ask."}

func students(ctx context.Context, call Call) (Reply, error) {
	if call.Args.Has("member") {
		return lookAt(ctx, call)
	}
	ties, err := call.Book.Coachings(ctx, call.owner())
	if err != nil {
		return Reply{}, err
	}
	var lines []string
	var actions []Action
	for _, t := range ties {
		if t.Coach != call.owner() {
			continue
		}
		m, err := call.Book.Member(ctx, t.Student)
		if err != nil {
			return Reply{}, err
		}
		if !t.Holds() {
			lines = append(lines, m.Name+": has not accepted yet")
			continue
		}
		lines = append(lines, m.Name+": since "+t.Accepted.In(calendar.ClubZone(call.Club)).Format("2 January 2006"))
		actions = append(actions, Action{"Look at " + m.Name, "/coach students member:" + Quote(m.Name)})
	}
	if len(lines) == 0 {
		return noStudents, nil
	}
	return Reply{Title: say.Count(len(lines), "student", "students"), Text: strings.Join(lines, "\n"), Actions: actions[:min(len(actions), 5)]}, nil
}

// lookAt shows a student's car to their coach, and notes that it did.
func lookAt(ctx context.Context, call Call) (Reply, error) {
	m, err := student(ctx, call)
	if err != nil {
		return Reply{}, err
	}
	c, err := call.Book.Case(ctx, m.Person, call.Args.Text("car"))
	if err != nil {
		return Reply{}, err
	}
	entries, _, err := call.Book.Log(ctx, c.Car, 1)
	if err != nil {
		return Reply{}, err
	}
	feels, err := call.Book.Feels(ctx, c.Car, 3)
	if err != nil {
		return Reply{}, err
	}
	if err := call.Book.Looked(ctx, call.owner(), m.Person, c.Car.Name+": clicks, log and feel"); err != nil {
		return Reply{}, err
	}
	reply := Reply{Title: fmt.Sprintf("%s, %s", m.Name, c.Car.Name), Text: say.Dampers(c.Car)}
	if c.Car.Fitted() == nil {
		reply.Corners = standing(c.Car, c.Setting)
		reply.Notes = say.Standing(c)
	}
	zone := calendar.ClubZone(call.Club)
	for _, e := range entries[:min(len(entries), 5)] {
		reply.Notes = append(reply.Notes, say.LogEntry(c.Car, e, zone, m.Person))
	}
	for _, f := range feels {
		note := fmt.Sprintf("%s: felt grip %d%s", f.At.In(zone).Format("2 Jan 15:04"), f.Grip, say.Feel(f))
		if f.Notes != "" {
			note += ", “" + f.Notes + "”"
		}
		reply.Notes = append(reply.Notes, note)
	}
	return reply, nil
}
