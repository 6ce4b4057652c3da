package garage

import (
	"context"
	"fmt"

	"detent/bot"
	"detent/bot/model"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
)

func whyCommand() bot.Command {
	return declare(bot.Command{Name: "why", Help: "One remedy of an advice in full", Own: true}, explainRemedy)
}

// adviceOptions name one remedy of an advice given earlier.
type adviceOptions struct {
	Advice int64 `name:"advice" help:"the number of the advice, the newest of the main car when not said" min:"1" max:"4503599627370496"`
	Remedy int   `name:"remedy" help:"which of its remedies, the first when not said" min:"1" max:"99"`
}

type whyOptions struct {
	adviceOptions
	Part whyPart `name:"part" help:"the reasons, the figures, or what to turn"`
	bot.MoreOption
}

// whyPart is a part of what there is to say of a remedy.
type whyPart string

const (
	whyReasons whyPart = "reasons" // why the trade does it, and what the model says
	whyFigures whyPart = "figures" // the numbers, the picture and what was assumed
	whyAnswer  whyPart = "answer"  // what to turn, as the first answer says it
)

// Choices lists the parts.
func (whyPart) Choices() []string {
	return []string{string(whyReasons), string(whyFigures), string(whyAnswer)}
}

func explainRemedy(ctx context.Context, call call, o whyOptions) (bot.Reply, error) {
	given, number, err := givenRemedy(ctx, call, o.adviceOptions)
	if err != nil {
		return bot.Reply{}, err
	}
	made := given.Advice.Complaint.Made()
	switch {
	case o.Part == whyAnswer:
		return answerAgain(given, number), nil
	case o.Part == whyFigures && !made:
		start, title := model.StartOf(given.Car, startOf(given)), "Figures of the start of "
		if given.Advice.Remedies[0].Kind.Brings() {
			start.Outside, title = "", "Figures of these clicks on " // they are no start of the trade
		}
		reply := start.Show(bot.Reply{Title: title + given.Car.Name}, call.Imperial())
		return o.Paged(reply, bot.WhyLine(given.Advice.ID, number)+" part:figures"), nil
	case o.Part == whyFigures:
		return o.Paged(remedyFigures(given, number, call.Imperial()), bot.WhyLine(given.Advice.ID, number)+" part:figures"), nil
	}
	return sayWhy(ctx, call, given, number)
}

// startOf is the setting that an advice to start from leads to.
func startOf(given tuning.Given) tuning.Setting {
	return settingAfter(given.Setting, given.Advice.Remedies[0].Moves)
}

// answerAgain shows a remedy as an answer does.
func answerAgain(given tuning.Given, number int) bot.Reply {
	remedy := showRemedy(given.Car, given.Advice, number)
	reply := bot.Reply{
		Title: heading(given.Car, given.Advice.Remedies[number-1]), Text: phone.Clip(given.Car.Name, phone.NameColumns),
		Remedies: []bot.Remedy{remedy}, Cautions: say.Cautions(given.Advice.Cautions), Actions: whyActions(given, number),
	}
	if made := given.Advice.Complaint; made.Made() {
		reply.Text += ", " + say.Complaint(made)
	}
	reply.Text += "."
	if remedy.Watch != "" {
		reply.Text += " Watch for " + remedy.Watch + "."
	}
	reply.Actions = append(reply.Actions, bot.Why(given.Advice.ID, number))
	reply.View = bot.View{Quiet: true, Moves: bot.Moving(remedy.Corners), Care: bot.CareFor(given.Car, given.Advice.Remedies[number-1].Moves), Line: usedAlready(given, number)}
	return reply
}

// sayWhy says why the trade does it and how sure it is, what the model says of
// it, and what else there is.
func sayWhy(ctx context.Context, call call, given tuning.Given, number int) (bot.Reply, error) {
	remedy := showRemedy(given.Car, given.Advice, number)
	reply := bot.Reply{Title: remedy.Say, Remedies: []bot.Remedy{remedy}, Cautions: say.Cautions(given.Advice.Cautions), Actions: whyActions(given, number)}
	reply.Actions = append(reply.Actions, bot.Button("Figures", bot.WhyLine(given.Advice.ID, number)+" part:figures"), cautionsButton)
	reply.View = bot.View{Size: phone.Why, Quiet: true, NoTable: true, Care: bot.CareFor(given.Car, given.Advice.Remedies[number-1].Moves), Line: usedAlready(given, number)}
	reply.Text = fmt.Sprintf("Remedy %d of %d for %s. %s", number, len(given.Advice.Remedies), phone.Clip(given.Car.Name, phone.NameColumns), remedy.Why)
	reply = model.Judge(reply, given.Car, given.Setting, given.Advice, call.Imperial())
	reply, learned, err := call.explainLearned(ctx, reply, given)
	if err != nil {
		return bot.Reply{}, err
	}
	lines := append([]string{"How sure the trade is: " + remedy.Confidence + "."}, learned...)
	if remedy.Watch != "" {
		lines = append([]string{"Watch for " + remedy.Watch + "."}, lines...)
	}
	if given.Advice.Remedies[number-1].Kind == tuning.ReturnBaseline && !given.Advice.Complaint.Made() {
		lines = append(lines, say.StartReasons(tuning.StartReasons(given.Car, given.Advice.Complaint.Weather))...)
	}
	if verdict := reply.Remedies[0].Model; verdict != nil {
		lines = append(lines, "The model: "+verdict.Say)
	}
	return reply.WithLines(append(append(lines, otherRemedies(given, number)...), "One change at a time; your own feel decides.")...), nil
}

// cautionsButton shows the cautions in full.
var cautionsButton = bot.Button("Cautions", "/help part:cautions")

// otherRemedies say what else there is for the complaint.
func otherRemedies(given tuning.Given, number int) []string {
	var lines []string
	for i, r := range given.Advice.Remedies {
		if i+1 == number || r.Kind == tuning.MakeEqual {
			continue
		}
		line := "Or " + say.Small(sayRemedy(given.Car, r))
		if r.Confidence == tuning.WeakerPractice {
			line += " (the trade is less sure)"
		}
		if r.Watch != "" {
			line += ". Watch for " + say.Watch(r.Watch)
		}
		lines = append(lines, line+".")
	}
	return lines
}

// usedAlready says that the advice was followed.
func usedAlready(given tuning.Given, number int) string {
	switch given.Applied {
	case 0:
		return ""
	case number:
		return "You have applied this one."
	}
	return fmt.Sprintf("You applied remedy %d of this advice: ask again before you turn more.", given.Applied)
}

// whyActions apply a remedy, or lead to the next.
func whyActions(given tuning.Given, number int) []bot.Action {
	var actions []bot.Action
	if given.Applied == 0 {
		actions = append(actions, bot.Button("Done", bot.ApplyLine(given.Advice.ID, number)))
	}
	if number < len(given.Advice.Remedies) && given.Advice.Remedies[number].Kind != tuning.MakeEqual {
		actions = append(actions, bot.Button("Try the other", bot.WhyLine(given.Advice.ID, number+1)+" part:answer"))
	}
	return actions
}

// remedyFigures are the numbers behind what the model says of a remedy.
func remedyFigures(given tuning.Given, number int, imperial bool) bot.Reply {
	remedy := showRemedy(given.Car, given.Advice, number)
	reply := bot.Reply{Title: "Figures: " + remedy.Say, Remedies: []bot.Remedy{remedy}}
	reply.View.NoTable = true
	reply = model.Judge(reply, given.Car, given.Setting, given.Advice, imperial)
	if verdict := reply.Remedies[0].Model; verdict != nil {
		reply.Text = verdict.Say
	}
	return model.Figures(reply, given.Car, given.Setting)
}

// givenRemedy finds the advice that the line names, and the number of the
// remedy that is meant.
func givenRemedy(ctx context.Context, call call, o adviceOptions) (tuning.Given, int, error) {
	given, err := givenAdvice(ctx, call, o.Advice)
	if err != nil {
		return given, 0, err
	}
	number := max(1, o.Remedy)
	if len(given.Advice.Remedies) == 0 {
		return given, 0, bot.Problemf(tuning.Conflict, "That advice turns no clicks: do first what it says.")
	}
	if number > len(given.Advice.Remedies) {
		return given, 0, bot.Problemf(tuning.Invalid, "Advice %d has %s: name one of them.", given.Advice.ID, say.Count(len(given.Advice.Remedies), "remedy", "remedies"))
	}
	return given, number, nil
}

// givenAdvice finds an advice by its number; 0 is the newest of the main car.
func givenAdvice(ctx context.Context, call call, number int64) (tuning.Given, error) {
	if number != 0 {
		return call.Book.Given(ctx, call.Owner(), number)
	}
	car, err := call.FindCar(ctx, call.Book, "")
	if err != nil {
		return tuning.Given{}, err
	}
	if number, err = call.Book.NewestAdvice(ctx, car); err != nil {
		return tuning.Given{}, err
	}
	if number == 0 {
		return tuning.Given{}, &bot.Problem{Kind: tuning.NotFound, Say: fmt.Sprintf("No advice was given for %s yet: say what it does.", car.Name),
			Actions: []bot.Action{complainAction(car), bot.Button("Where do I start", "/baseline", bot.OfCar(car))}}
	}
	return call.Book.Given(ctx, call.Owner(), number)
}
