package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"detent/tuning"
	"detent/tuning/calendar"
)

func coachCommands() []Command {
	member := Option{Name: "member", Help: "the member's name", Required: true, Source: FromMembers}
	suggest := []Option{member}
	for _, o := range clicksCommands()[1].Options {
		o.Source = NoSource // the coach's own cars and clicks are not meant
		suggest = append(suggest, o)
	}
	why := Option{Name: "why", Help: "what you expect of it, in your own words", Required: true}
	optional := member
	optional.Required = false
	return []Command{
		{Name: "coach ask", Help: "Offer to coach a member", Role: tuning.CoachRole, Private: true, Writes: true, Options: []Option{member}, Answer: askCoach},
		{Name: "coach accept", Help: "Accept a coach's offer", Private: true, Writes: true, Options: []Option{member}, Answer: acceptCoach},
		{Name: "coach end", Help: "End a coaching, from either side", Private: true, Writes: true, Options: []Option{member}, Answer: endCoach},
		{Name: "coach students", Help: "Your students, or one of them with clicks, log and feel", Role: tuning.CoachRole, Private: true, Writes: true,
			Options: []Option{optional, carOption}, Answer: students},
		{Name: "coach note", Help: "Leave a note for a student", Role: tuning.CoachRole, Private: true, Writes: true,
			Options: []Option{member, {Name: "text", Help: "what you want to say", Required: true}}, Answer: leaveNote},
		{Name: "coach suggest", Help: "Suggest a change that the student applies or declines", Role: tuning.CoachRole, Private: true, Writes: true,
			Options: append(suggest, why), Answer: suggestChange},
		{Name: "coach notes", Help: "What your coaches wrote and suggested", Private: true, Answer: readNotes},
		{Name: "coach decline", Help: "Decline a coach's suggestion", Private: true, Writes: true,
			Options: []Option{{Name: "advice", Help: "the number of the suggestion", Kind: Whole, Required: true, Min: 1, Max: 1 << 52}}, Answer: decline},
		{Name: "coach seen", Help: "When which coach looked at your things", Private: true, Answer: seen},
	}
}

// tie finds the coaching between the asking person and a member, whichever
// way round.
func tie(ctx context.Context, call Call, member string) (tuning.Coaching, bool, error) {
	ties, err := call.Book.Coachings(ctx, call.owner())
	for _, t := range ties {
		if t.Coach == member || t.Student == member {
			return t, true, err
		}
	}
	return tuning.Coaching{}, false, err
}

func askCoach(ctx context.Context, call Call) (Reply, error) {
	student, err := call.Book.FindMember(ctx, call.Args.Text("member"))
	if err != nil {
		return Reply{}, err
	}
	if student.Person == call.owner() {
		return Reply{}, tuning.Problemf(tuning.Invalid, "You cannot coach yourself: name another member.")
	}
	t, known, err := tie(ctx, call, student.Person)
	switch {
	case err != nil:
		return Reply{}, err
	case known && t.Holds():
		return Reply{}, tuning.Problemf(tuning.Conflict, "You and %s are coach and student already.", student.Name)
	case known:
		return Reply{}, tuning.Problemf(tuning.Conflict, "An offer between you and %s waits to be accepted already.", student.Name)
	}
	if _, err := call.Book.SaveCoaching(ctx, tuning.Coaching{Coach: call.owner(), Student: student.Person}); err != nil {
		return Reply{}, err
	}
	return Reply{Title: "Offered to coach " + student.Name,
		Text: fmt.Sprintf("%s accepts with /coach accept member:%s. Until then you see nothing of theirs.", student.Name, Quote(call.Member.Name))}, nil
}

func acceptCoach(ctx context.Context, call Call) (Reply, error) {
	coach, err := call.Book.FindMember(ctx, call.Args.Text("member"))
	if err != nil {
		return Reply{}, err
	}
	t, known, err := tie(ctx, call, coach.Person)
	switch {
	case err != nil:
		return Reply{}, err
	case !known || t.Student != call.owner():
		return Reply{}, tuning.Problemf(tuning.NotFound, "%s has not offered to coach you.", coach.Name)
	case t.Holds():
		return Reply{}, tuning.Problemf(tuning.Conflict, "%s is your coach already.", coach.Name)
	}
	t.Accepted = call.now()
	if _, err := call.Book.SaveCoaching(ctx, t); err != nil {
		return Reply{}, err
	}
	if err := planDigest(ctx, call, t.Coach); err != nil {
		return Reply{}, err
	}
	return Reply{Title: coach.Name + " is your coach now",
		Text:    "They see your cars, clicks, log and feel, and nothing of others. Every look is listed under /coach seen; either of you can end it.",
		Actions: []Action{{"Who looked, and when", "/coach seen"}, {"End the coaching", "/coach end member:" + Quote(coach.Name)}}}, nil
}

func endCoach(ctx context.Context, call Call) (Reply, error) {
	other, err := call.Book.FindMember(ctx, call.Args.Text("member"))
	if err != nil {
		return Reply{}, err
	}
	t, known, err := tie(ctx, call, other.Person)
	if err != nil {
		return Reply{}, err
	}
	if !known {
		return Reply{}, tuning.Problemf(tuning.NotFound, "There is no coaching between you and %s.", other.Name)
	}
	t.Ended = call.now()
	if _, err := call.Book.SaveCoaching(ctx, t); err != nil {
		return Reply{}, err
	}
	if err := planDigest(ctx, call, t.Coach); err != nil {
		return Reply{}, err
	}
	return Reply{Title: "Coaching with " + other.Name + " ended", Text: "From now on neither sees anything of the other's."}, nil
}

// planDigest keeps a coach's weekly digest on the timetable while they have a
// student.
func planDigest(ctx context.Context, call Call, coach string) error {
	ties, err := call.Book.Coachings(ctx, coach)
	if err != nil {
		return err
	}
	holds := func(t tuning.Coaching) bool { return t.Coach == coach && t.Holds() }
	if !slices.ContainsFunc(ties, holds) {
		return call.Book.Schedule(ctx, 0, coach, nil)
	}
	next, err := calendar.ForCoach(call.Club, coach, call.now())
	if err != nil {
		return err
	}
	return call.Book.Schedule(ctx, 0, coach, []calendar.Due{next})
}

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
		lines = append(lines, m.Name+": since "+t.Accepted.In(zoneOf(call.Club)).Format("2 January 2006"))
		actions = append(actions, Action{"Look at " + m.Name, "/coach students member:" + Quote(m.Name)})
	}
	if len(lines) == 0 {
		return Reply{Title: "No students yet", Text: "Offer to coach a member with /coach ask."}, nil
	}
	return Reply{Title: count(len(lines), "student", "students"), Text: strings.Join(lines, "\n"), Actions: actions[:min(len(actions), 5)]}, nil
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
	reply := Reply{Title: fmt.Sprintf("%s, %s", m.Name, c.Car.Name), Text: sayDampers(c.Car)}
	if c.Car.Fitted() == nil {
		reply.Corners = standing(c.Car, c.Setting)
		reply.Notes = standingNotes(c)
	}
	zone := zoneOf(call.Club)
	for _, e := range entries[:min(len(entries), 5)] {
		reply.Notes = append(reply.Notes, sayEntry(c.Car, e, zone, m.Person))
	}
	for _, f := range feels {
		note := fmt.Sprintf("%s: felt grip %d%s", f.At.In(zone).Format("2 Jan 15:04"), f.Grip, feelDetails(f))
		if f.Notes != "" {
			note += ", “" + f.Notes + "”"
		}
		reply.Notes = append(reply.Notes, note)
	}
	return reply, nil
}

// maxNote is the longest note a coach leaves, in characters.
const maxNote = 1000

// words reads a text that must say something and not too much.
func words(call Call, option string) (string, error) {
	text := strings.TrimSpace(call.Args.Text(option))
	switch n := len([]rune(text)); {
	case n == 0:
		return "", tuning.Problemf(tuning.Invalid, "Say something in %s.", option)
	case n > maxNote:
		return "", tuning.Problemf(tuning.Limit, "Keep %s under %d characters.", option, maxNote)
	}
	return text, nil
}

func leaveNote(ctx context.Context, call Call) (Reply, error) {
	m, err := student(ctx, call)
	if err != nil {
		return Reply{}, err
	}
	text, err := words(call, "text")
	if err != nil {
		return Reply{}, err
	}
	if err := call.Book.SaveNote(ctx, tuning.CoachNote{Coach: call.owner(), Student: m.Person, Text: text}); err != nil {
		return Reply{}, err
	}
	return Reply{Title: "Note left for " + m.Name, Text: "They read it under /coach notes."}, nil
}

func suggestChange(ctx context.Context, call Call) (Reply, error) {
	m, err := student(ctx, call)
	if err != nil {
		return Reply{}, err
	}
	why, err := words(call, "why")
	if err != nil {
		return Reply{}, err
	}
	c, err := call.Book.Case(ctx, m.Person, call.Args.Text("car"))
	if err != nil {
		return Reply{}, err
	}
	moves, err := handMoves(c, call.Args)
	if err != nil {
		return Reply{}, err
	}
	if moves = moved(moves); len(moves) == 0 {
		return Reply{}, tuning.Problemf(tuning.Invalid, "%s stands there already: suggest another position.", c.Car.Name)
	}
	remedy := tuning.Remedy{Kind: tuning.TurnClicks, Why: why, Watch: "what your coach told you to", Confidence: tuning.CommonPractice, Moves: moves}
	advice, err := call.Book.Suggest(ctx, call.owner(), tuning.Advice{Car: c.Car.ID, Remedies: []tuning.Remedy{remedy}}, c.Setting)
	if err != nil {
		return Reply{}, err
	}
	if err := call.Book.Looked(ctx, call.owner(), m.Person, c.Car.Name+": clicks, to suggest a change"); err != nil {
		return Reply{}, err
	}
	return Reply{Title: "Suggested to " + m.Name + ": " + sayMoves(c.Car, moves),
		Text:     fmt.Sprintf("It is suggestion %d; they apply or decline it under /coach notes. It lapses when the clicks move.", advice.ID),
		Cautions: cautionWords(tuning.BaselineCautions(c.Car, moves))}, nil
}

func readNotes(ctx context.Context, call Call) (Reply, error) {
	waiting, err := call.Book.Suggestions(ctx, call.owner())
	if err != nil {
		return Reply{}, err
	}
	notes, err := call.Book.Notes(ctx, call.owner(), 10)
	if err != nil {
		return Reply{}, err
	}
	reply := Reply{Title: "Nothing from a coach", Text: "Notes and suggestions of your coaches stand here."}
	var lines []string
	for _, s := range waiting {
		car, err := call.Book.Car(ctx, call.owner(), s.Car)
		if err != nil {
			return Reply{}, err
		}
		r := s.Advice.Remedies[0]
		lines = append(lines, fmt.Sprintf("%s suggests for %s: %s. %s", nameOf(ctx, call, s.Coach), s.Car, sayMoves(car, r.Moves), r.Why))
		reply.Actions = append(reply.Actions, Action{fmt.Sprintf("Done: suggestion %d", s.Advice.ID), applyLine(s.Advice.ID, 1)},
			Action{fmt.Sprintf("Decline %d", s.Advice.ID), fmt.Sprintf("/coach decline advice:%d", s.Advice.ID)})
	}
	for _, n := range notes {
		reply.Notes = append(reply.Notes, fmt.Sprintf("%s, %s: %s", n.At.In(zoneOf(call.Club)).Format("2 Jan"), nameOf(ctx, call, n.Coach), n.Text))
	}
	switch {
	case len(lines) > 0:
		reply.Title, reply.Text = "A coach suggests a change", strings.Join(lines, "\n")
		reply.Cautions = cautionWords([]tuning.Caution{tuning.Hot, tuning.Gently, tuning.EaseIn, tuning.Closed})
	case len(notes) > 0:
		reply.Title, reply.Text = "From your coaches", "No suggestion waits for you."
	}
	return reply, nil
}

// nameOf is how a person is known today.
func nameOf(ctx context.Context, call Call, person string) string {
	m, err := call.Book.Member(ctx, person)
	if err != nil || m.Name == "" {
		return "a coach"
	}
	return m.Name
}

func decline(ctx context.Context, call Call) (Reply, error) {
	advice := int64(call.Args.Whole("advice"))
	if err := call.Book.Decline(ctx, call.owner(), advice); err != nil {
		return Reply{}, err
	}
	return Reply{Title: fmt.Sprintf("Suggestion %d declined", advice), Text: "Nothing was changed."}, nil
}

func seen(ctx context.Context, call Call) (Reply, error) {
	looks, err := call.Book.Looks(ctx, call.owner(), 20)
	if err != nil {
		return Reply{}, err
	}
	if len(looks) == 0 {
		return Reply{Title: "No coach has looked at your things"}, nil
	}
	var lines []string
	for _, l := range looks {
		lines = append(lines, fmt.Sprintf("%s: %s looked at %s", l.At.In(zoneOf(call.Club)).Format("2 Jan 15:04"), nameOf(ctx, call, l.Coach), l.What))
	}
	return Reply{Title: "Coaches looked " + count(len(looks), "time", "times"), Text: strings.Join(lines, "\n")}, nil
}
