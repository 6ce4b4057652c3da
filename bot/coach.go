package bot

import (
	"context"
	"fmt"
	"slices"

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
		Actions: []Action{{"Who looked, and when", "/coach seen"}, {"End the coaching", "/coach end member:" + Quote(coach.Person)}}}, nil
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
