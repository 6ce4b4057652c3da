package coaching

import (
	"context"
	"fmt"
	"slices"

	"detent/bot"
	"detent/tuning"
	"detent/tuning/calendar"
)

func askCommand() bot.Command {
	return declare(bot.Command{Name: "coach ask", Help: "Offer to coach a member", Role: tuning.CoachRole, Private: true, Writes: true}, askCoach)
}

func acceptCommand() bot.Command {
	return declare(bot.Command{Name: "coach accept", Help: "Accept a coach's offer", Private: true, Writes: true}, acceptCoach)
}

func endCommand() bot.Command {
	return declare(bot.Command{Name: "coach end", Help: "End a coaching, from either side", Private: true, Writes: true}, endCoach)
}

// findTie finds the coaching between the asking person and a member, whichever
// way round.
func findTie(ctx context.Context, call call, member string) (tuning.Coaching, bool, error) {
	ties, err := call.Book.Coachings(ctx, call.Owner())
	for _, t := range ties {
		if t.Coach == member || t.Student == member {
			return t, true, err
		}
	}
	return tuning.Coaching{}, false, err
}

func askCoach(ctx context.Context, call call, o memberOption) (bot.Reply, error) {
	student, err := call.Book.FindMember(ctx, o.Member)
	if err != nil {
		return bot.Reply{}, err
	}
	if student.Person == call.Owner() {
		return bot.Reply{}, bot.Problemf(tuning.Invalid, "You cannot coach yourself: name another member.")
	}
	t, known, err := findTie(ctx, call, student.Person)
	switch {
	case err != nil:
		return bot.Reply{}, err
	case known && t.Holds():
		return bot.Reply{}, bot.Problemf(tuning.Conflict, "You and %s are coach and student already.", student.Name)
	case known:
		return bot.Reply{}, bot.Problemf(tuning.Conflict, "An offer between you and %s waits to be accepted already.", student.Name)
	}
	if _, err := call.Book.SaveCoaching(ctx, tuning.Coaching{Coach: call.Owner(), Student: student.Person}); err != nil {
		return bot.Reply{}, err
	}
	return bot.Reply{Title: "Offered to coach " + student.Name,
		Text: fmt.Sprintf("%s accepts with /coach accept member:%s. Until then you see nothing of theirs.", student.Name, bot.Quote(call.Member.Name))}, nil
}

func acceptCoach(ctx context.Context, call call, o memberOption) (bot.Reply, error) {
	coach, err := call.Book.FindMember(ctx, o.Member)
	if err != nil {
		return bot.Reply{}, err
	}
	t, known, err := findTie(ctx, call, coach.Person)
	switch {
	case err != nil:
		return bot.Reply{}, err
	case !known || t.Student != call.Owner():
		return bot.Reply{}, bot.Problemf(tuning.NotFound, "%s has not offered to coach you.", coach.Name)
	case t.Holds():
		return bot.Reply{}, bot.Problemf(tuning.Conflict, "%s is your coach already.", coach.Name)
	}
	t.Accepted = call.Now()
	if _, err := call.Book.SaveCoaching(ctx, t); err != nil {
		return bot.Reply{}, err
	}
	if err := planDigest(ctx, call, t.Coach); err != nil {
		return bot.Reply{}, err
	}
	return bot.Reply{Title: coach.Name + " is your coach now",
		Text:    "They see your cars, clicks, log and feel, and nothing of others. Every look is listed under /coach seen; either of you can end it.",
		Notes:   []string{"What they write to you comes as a message too; /me set messages:off stops that."},
		Actions: []bot.Action{bot.Button("Who looked, and when", "/coach seen"), bot.Button("End the coaching", "/coach end member:"+bot.Quote(coach.Person))}}, nil
}

func endCoach(ctx context.Context, call call, o memberOption) (bot.Reply, error) {
	other, err := call.Book.FindMember(ctx, o.Member)
	if err != nil {
		return bot.Reply{}, err
	}
	t, known, err := findTie(ctx, call, other.Person)
	if err != nil {
		return bot.Reply{}, err
	}
	if !known {
		return bot.Reply{}, bot.Problemf(tuning.NotFound, "There is no coaching between you and %s.", other.Name)
	}
	t.Ended = call.Now()
	if _, err := call.Book.SaveCoaching(ctx, t); err != nil {
		return bot.Reply{}, err
	}
	if err := planDigest(ctx, call, t.Coach); err != nil {
		return bot.Reply{}, err
	}
	return bot.Reply{Title: "Coaching with " + other.Name + " ended", Text: "From now on neither sees anything of the other's."}, nil
}

// planDigest keeps a coach's weekly digest on the timetable while they have a
// student.
func planDigest(ctx context.Context, call call, coach string) error {
	ties, err := call.Book.Coachings(ctx, coach)
	if err != nil {
		return err
	}
	holds := func(t tuning.Coaching) bool { return t.Coach == coach && t.Holds() }
	if !slices.ContainsFunc(ties, holds) {
		return call.Book.Schedule(ctx, 0, coach, nil)
	}
	next, err := calendar.ForCoach(call.Club, coach, call.Now())
	if err != nil {
		return err
	}
	return call.Book.Schedule(ctx, 0, coach, []calendar.Due{next})
}
