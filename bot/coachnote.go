package bot

import (
	"context"
	"fmt"
	"strings"

	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

// This file is what a coach writes and suggests, and what the student does
// with it.

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
	// From here on even a refusal tells the coach something of the car, so the
	// look is noted and a refusal is a reply like another.
	if err := call.Book.Looked(ctx, call.owner(), m.Person, c.Car.Name+": clicks, to suggest a change"); err != nil {
		return Reply{}, err
	}
	moves, err := handMoves(c, call.Args)
	if moves = tuning.Turned(moves); err == nil && len(moves) == 0 {
		err = tuning.Problemf(tuning.Invalid, "%s stands there already: suggest another position.", c.Car.Name)
	}
	if err != nil {
		return Refuse(err), nil
	}
	remedy := tuning.Remedy{Kind: tuning.TurnClicks, Why: why, Watch: "what your coach told you to", Confidence: tuning.CommonPractice, Moves: moves}
	advice, err := call.Book.Suggest(ctx, call.owner(), tuning.Advice{Car: c.Car.ID, Remedies: []tuning.Remedy{remedy}}, c.Setting)
	if err != nil {
		return Reply{}, err
	}
	return Reply{Title: "Suggested to " + m.Name + ": " + say.Moves(c.Car, moves),
		Text:     fmt.Sprintf("It is suggestion %d; they apply or decline it under /coach notes. It lapses when the clicks move.", advice.ID),
		Cautions: say.Cautions(tuning.BaselineCautions(c.Car, moves))}, nil
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
		r := s.Advice.Remedies[0]
		lines = append(lines, fmt.Sprintf("%s suggests for %s: %s. %s", s.CoachName, s.Car.Name, say.Moves(s.Car, r.Moves), r.Why))
		reply.Actions = append(reply.Actions, Action{fmt.Sprintf("Done: suggestion %d", s.Advice.ID), applyLine(s.Advice.ID, 1)},
			Action{fmt.Sprintf("Decline %d", s.Advice.ID), fmt.Sprintf("/coach decline advice:%d", s.Advice.ID)})
	}
	for _, n := range notes {
		reply.Notes = append(reply.Notes, fmt.Sprintf("%s, %s: %s", n.At.In(calendar.ClubZone(call.Club)).Format("2 Jan"), n.CoachName, n.Text))
	}
	switch {
	case len(lines) > 0:
		reply.Title, reply.Text = "A coach suggests a change", strings.Join(lines, "\n")
		reply.Cautions = say.Cautions([]tuning.Caution{tuning.Hot, tuning.Gently, tuning.EaseIn, tuning.Closed})
	case len(notes) > 0:
		reply.Title, reply.Text = "From your coaches", "No suggestion waits for you."
	}
	return reply, nil
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
		lines = append(lines, fmt.Sprintf("%s: %s looked at %s", l.At.In(calendar.ClubZone(call.Club)).Format("2 Jan 15:04"), l.CoachName, l.What))
	}
	return Reply{Title: "Coaches looked " + say.Count(len(looks), "time", "times"), Text: strings.Join(lines, "\n")}, nil
}
