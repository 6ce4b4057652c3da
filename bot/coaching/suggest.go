package coaching

import (
	"context"
	"fmt"
	"strings"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/reading"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

func suggestCommand() bot.Command {
	return declare(bot.Command{Name: "coach suggest", Help: "Suggest a change that the student applies or declines, to one or several", Role: tuning.CoachRole,
		Private: true, Writes: true}, suggestChange)
}

func declineCommand() bot.Command {
	return declare(bot.Command{Name: "coach decline", Help: "Decline a coach's suggestion", Private: true, Writes: true}, declineSuggestion)
}

// suggestOptions name no source for the car: the coach's own cars are not
// meant.
type suggestOptions struct {
	studentsNamed
	reading.PositionOptions
	Car string `name:"car" help:"the car of one student, when it is not the main one"`
	Why string `name:"why" help:"what you expect of it, in your own words" required:"yes"`
}

type declineOptions struct {
	Advice int64 `name:"advice" help:"the number of the suggestion" required:"yes" min:"1" max:"4503599627370496"`
}

func suggestChange(ctx context.Context, call call, o suggestOptions) (bot.Reply, error) {
	students, err := o.find(ctx, call)
	if err != nil {
		return bot.Reply{}, err
	}
	if o.Car != "" && len(students) > 1 {
		return bot.Reply{}, bot.Problemf(tuning.Invalid, "Leave car out when you name several: each one's main car is meant.")
	}
	why, err := checkWords("why", o.Why)
	if err != nil {
		return bot.Reply{}, err
	}
	cases := make([]tuning.Case, len(students))
	for i, m := range students {
		if cases[i], err = call.caseOf(ctx, m, o.Car); err != nil {
			return bot.Reply{}, err
		}
	}
	moves := make([][]tuning.Move, len(students))
	for i, m := range students {
		// From here on even a refusal tells the coach something of the car, so the
		// look is noted and a refusal is a reply like another.
		if err := call.Book.Looked(ctx, call.Owner(), m.Person, cases[i].Car.Name+": clicks, to suggest a change"); err != nil {
			return bot.Reply{}, err
		}
		if moves[i], err = o.movesOn(m, cases[i], len(students) > 1); err != nil {
			return bot.Refuse(err), nil
		}
	}
	var enough []tuning.Member
	for i, m := range students {
		sent, err := call.keepSuggestion(ctx, m, cases[i], moves[i], why)
		if err != nil {
			return bot.Reply{}, err
		}
		if !sent {
			enough = append(enough, m)
		}
	}
	return saySuggested(students, cases, moves, call.sayReach(students, enough)), nil
}

// keepSuggestion keeps a suggestion and sends it, and tells whether it did that.
func (c call) keepSuggestion(ctx context.Context, m tuning.Member, k tuning.Case, moves []tuning.Move, why string) (sent bool, err error) {
	remedy := tuning.Remedy{Kind: tuning.TurnClicks, Why: tuning.Why(why), Watch: tuning.WatchAsCoachSaid, Confidence: tuning.CommonPractice, Moves: moves}
	advice, err := c.Book.Suggest(ctx, c.Owner(), tuning.Advice{Car: k.Car.ID, Remedies: []tuning.Remedy{remedy}}, k.Setting)
	if err != nil {
		return false, err
	}
	return c.sendWord(ctx, m.Person, calendar.Suggestion, advice.ID)
}

// movesOn are what turns a student's clicks to the position. Where several are
// named a refusal says whose car it is about.
func (o suggestOptions) movesOn(m tuning.Member, k tuning.Case, several bool) ([]tuning.Move, error) {
	if k.Car.Fitted() != nil {
		return nil, bot.Problemf(tuning.Conflict, "I do not know the dampers of %s's %s yet: ask them to fit them here.", m.Name, k.Car.Name)
	}
	moves, err := o.Moves(k)
	if moves = tuning.Turned(moves); err == nil && len(moves) == 0 {
		err = bot.Problemf(tuning.Invalid, "%s stands there already: suggest another position.", k.Car.Name)
	}
	if p, ok := bot.ProblemOf(err); ok && several {
		err = bot.Problemf(p.Kind, "%s: %s", m.Name, p.Say)
	}
	return moves, err
}

// caseOf reads the case of a student's car by its name or, as buttons have it, its
// number; "" is the main car.
func (c call) caseOf(ctx context.Context, m tuning.Member, car string) (tuning.Case, error) {
	name, err := c.CarName(ctx, c.Book, m.Person, car)
	if err != nil {
		return tuning.Case{}, err
	}
	k, err := c.Book.Case(ctx, m.Person, name)
	if err != nil {
		return k, noCar(m, name, err)
	}
	return k, nil
}

// noCar says whose car is not there, or not clear.
func noCar(m tuning.Member, name string, err error) error {
	switch kind := tuning.KindOf(err); {
	case kind == tuning.NotFound && name == "":
		return bot.Problemf(kind, "%s has no car here yet.", m.Name)
	case kind == tuning.NotFound:
		return bot.Problemf(kind, "%s has no car called %s.", m.Name, say.Echo(name))
	case kind == tuning.Invalid && name == "":
		return bot.Problemf(kind, "%s has several cars and none of them is the main one: name it with car.", m.Name)
	}
	return err
}

// saySuggested confirms suggestions, with what each turns.
func saySuggested(students []tuning.Member, cases []tuning.Case, moves [][]tuning.Move, reach string) bot.Reply {
	reach += " It lapses when the clicks move."
	if len(students) == 1 {
		return bot.Reply{Title: "Suggested to " + students[0].Name + ": " + say.Turns(cases[0].Car, moves[0]), Text: reach,
			View: bot.View{Care: bot.CareFor(cases[0].Car, moves[0])}, Cautions: say.Cautions(tuning.BaselineCautions(cases[0].Car, moves[0]))}
	}
	reply := bot.Reply{View: bot.View{Care: bot.Care{Turns: true}}}
	lines := []string{reach}
	for i, m := range students {
		if len(students) <= fewNames {
			lines = append(lines, fmt.Sprintf("%s, %s: %s", phone.Clip(m.Name, phone.NameColumns), phone.Clip(cases[i].Car.Name, phone.NameColumns), say.Turns(cases[i].Car, moves[i])))
		}
		care := bot.CareFor(cases[i].Car, moves[i])
		reply.View.Care.Stiff = reply.View.Care.Stiff || care.Stiff
		if cautions := say.Cautions(tuning.BaselineCautions(cases[i].Car, moves[i])); len(cautions) > len(reply.Cautions) {
			reply.Cautions = cautions
		}
	}
	reply.Text = strings.Join(lines, "\n")
	reply = headed(reply, "Suggested to", students)
	reply.View.Size = phone.List
	return reply
}

func declineSuggestion(ctx context.Context, call call, o declineOptions) (bot.Reply, error) {
	if err := call.Book.Decline(ctx, call.Owner(), o.Advice); err != nil {
		return bot.Reply{}, err
	}
	return bot.Reply{Title: fmt.Sprintf("Suggestion %d declined", o.Advice), Text: "Nothing was changed."}, nil
}
