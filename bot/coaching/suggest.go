package coaching

import (
	"context"
	"fmt"

	"detent/bot"
	"detent/bot/reading"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

func suggestCommand() bot.Command {
	return declare(bot.Command{Name: "coach suggest", Help: "Suggest a change that the student applies or declines", Role: tuning.CoachRole,
		Private: true, Writes: true}, suggestChange)
}

func declineCommand() bot.Command {
	return declare(bot.Command{Name: "coach decline", Help: "Decline a coach's suggestion", Private: true, Writes: true}, declineSuggestion)
}

// suggestOptions name no source for the car: the coach's own cars are not
// meant.
type suggestOptions struct {
	memberOption
	reading.PositionOptions
	Car string `name:"car" help:"the car, when it is not the main one"`
	Why string `name:"why" help:"what you expect of it, in your own words" required:"yes"`
}

type declineOptions struct {
	Advice int64 `name:"advice" help:"the number of the suggestion" required:"yes" min:"1" max:"4503599627370496"`
}

func suggestChange(ctx context.Context, call call, o suggestOptions) (bot.Reply, error) {
	m, err := findStudent(ctx, call, o.Member)
	if err != nil {
		return bot.Reply{}, err
	}
	why, err := checkWords("why", o.Why)
	if err != nil {
		return bot.Reply{}, err
	}
	c, err := call.Book.Case(ctx, m.Person, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	// From here on even a refusal tells the coach something of the car, so the
	// look is noted and a refusal is a reply like another.
	if err := call.Book.Looked(ctx, call.Owner(), m.Person, c.Car.Name+": clicks, to suggest a change"); err != nil {
		return bot.Reply{}, err
	}
	moves, err := o.Moves(c)
	if moves = tuning.Turned(moves); err == nil && len(moves) == 0 {
		err = bot.Problemf(tuning.Invalid, "%s stands there already: suggest another position.", c.Car.Name)
	}
	if err != nil {
		return bot.Refuse(err), nil
	}
	remedy := tuning.Remedy{Kind: tuning.TurnClicks, Why: why, Watch: "what your coach told you to", Confidence: tuning.CommonPractice, Moves: moves}
	advice, err := call.Book.Suggest(ctx, call.Owner(), tuning.Advice{Car: c.Car.ID, Remedies: []tuning.Remedy{remedy}}, c.Setting)
	if err != nil {
		return bot.Reply{}, err
	}
	sent, err := call.send(ctx, m.Person, calendar.Suggestion, advice.ID)
	return bot.Reply{Title: "Suggested to " + m.Name + ": " + say.Turns(c.Car, moves), View: bot.View{Care: bot.CareFor(c.Car, moves)},
		Text:     sayReach(sent) + " It lapses when the clicks move.",
		Cautions: say.Cautions(tuning.BaselineCautions(c.Car, moves))}, err
}

func declineSuggestion(ctx context.Context, call call, o declineOptions) (bot.Reply, error) {
	if err := call.Book.Decline(ctx, call.Owner(), o.Advice); err != nil {
		return bot.Reply{}, err
	}
	return bot.Reply{Title: fmt.Sprintf("Suggestion %d declined", o.Advice), Text: "Nothing was changed."}, nil
}
