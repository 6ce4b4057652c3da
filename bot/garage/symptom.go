package garage

import (
	"context"

	"detent/bot"
	"detent/bot/model"
	"detent/bot/reading"
	"detent/bot/say"
	"detent/tuning"
)

func symptomCommand() bot.Command {
	return declare(bot.Command{Name: "symptom", Help: "What to turn when the car does not do what you want", Own: true, Writes: true}, answerSymptom)
}

type symptomOptions struct {
	What  tuning.What      `name:"what" help:"what the car does" required:"yes" ask:"What does the car do?"`
	Where tuning.Where     `name:"where" help:"where in the corner"`
	Axle  reading.AxleWord `name:"axle" help:"which end, for packs-down and bottoms" ask:"At which end?"`
	weatherOption
	bot.CarOption
}

func answerSymptom(ctx context.Context, call call, o symptomOptions) (bot.Reply, error) {
	book := complainedBook{record: call.Book, complaint: tuning.Complaint{What: o.What, Where: o.Where}}
	c, err := call.FindRunning(ctx, &book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	complaint, err := o.complaintOn(call, c)
	if err != nil {
		return bot.Reply{}, err
	}
	reply, err := giveAdvice(ctx, call, c, call.knownOf(c, complaint, book.evidence))
	reply.Actions = append(reply.Actions, o.placeActions(call, c)...)
	return reply, err
}

// giveAdvice judges a complaint by what the record knows of it, keeps the advice
// so that a button can name it, and shows it.
func giveAdvice(ctx context.Context, call call, c tuning.Case, known known) (bot.Reply, error) {
	c.History.Prefer = known.Prefer
	advice, err := tuning.Advise(c.Car, c.Setting, known.Complaint, c.History, call.Club.Sizes)
	if err != nil {
		return bot.Reply{}, err
	}
	s := situation{c: c, zone: call.Zone(), offered: len(advice.Remedies)}
	if s.unseen, err = call.Book.Unseen(ctx, call.Owner()); err != nil {
		return bot.Reply{}, err
	}
	advice.Remedies = append(advice.Remedies, equalSides(advice)...)
	if s.advice, err = call.Book.SaveAdvice(ctx, advice, c.Setting); err != nil {
		return bot.Reply{}, err
	}
	if told, changed := known.whyOrder(s.advice); changed {
		s.order = say.LearnedOrder(c.Car, told)
	}
	reply := known.show(s.say(), s.advice)
	if s.order != "" {
		reply.Notes = append([]string{s.order}, reply.Notes...)
	}
	reply.Notes = append(say.Facts(c.Car, advice.Facts, call.Zone()), reply.Notes...)
	if call.Ask.Whole { // a message has it under Why
		reply = model.Judge(reply, c.Car, c.Setting, s.advice, call.Imperial())
	}
	return reply, nil
}
