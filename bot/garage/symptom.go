package garage

import (
	"context"
	"fmt"
	"strings"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
)

func symptomCommand() bot.Command {
	return declare(bot.Command{Name: "symptom", Help: "What to turn when the car does not do what you want", Writes: true}, answerSymptom)
}

type symptomOptions struct {
	What  tuning.What  `name:"what" help:"what the car does" required:"yes" ask:"What does the car do?"`
	Where tuning.Where `name:"where" help:"where in the corner"`
	Axle  bot.AxleWord `name:"axle" help:"which end, for packs-down and bottoms" ask:"At which end?"`
	weatherOption
	bot.CarOption
}

func answerSymptom(ctx context.Context, call call, o symptomOptions) (bot.Reply, error) {
	c, err := call.runningCase(ctx, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	complaint, err := o.complaintOn(call, c)
	if err != nil {
		return bot.Reply{}, err
	}
	reply, err := giveAdvice(ctx, call, c, complaint)
	reply.Actions = append(reply.Actions, o.placeActions(call, c)...)
	return reply, err
}

// giveAdvice judges a complaint, keeps the advice so that a button can name
// it, and shows it.
func giveAdvice(ctx context.Context, call call, c tuning.Case, complaint tuning.Complaint) (bot.Reply, error) {
	known, err := call.known(ctx, c.Car, c.History, complaint)
	if err != nil {
		return bot.Reply{}, err
	}
	c.History.Prefer = known.Prefer
	advice, err := tuning.Advise(c.Car, c.Setting, complaint, c.History, call.Club.Sizes)
	if err != nil {
		return bot.Reply{}, err
	}
	advice.Remedies = append(advice.Remedies, equalSides(advice)...)
	if advice, err = call.Book.SaveAdvice(ctx, advice, c.Setting); err != nil {
		return bot.Reply{}, err
	}
	reply := showLearned(sayAdvice(c, advice), known, advice)
	reply.Actions = append(reply.Actions, equalActions(advice)...)
	reply.Notes = append(say.Facts(c.Car, besideOrder(advice.Facts), call.Zone()), reply.Notes...)
	return judged(reply, c.Car, c.Setting, advice, call.Imperial(), call.Ask.Whole), nil
}

// sayAdvice shows an advice: the first remedy's action first.
func sayAdvice(c tuning.Case, advice tuning.Advice) bot.Reply {
	reply := bot.Reply{
		First: advice.First, Notes: advice.Notes, Cautions: say.Cautions(advice.Cautions),
	}
	for i := range advice.Remedies {
		reply.Remedies = append(reply.Remedies, showRemedy(c.Car, advice, i+1))
	}
	about := c.Car.Name + ", " + say.Complaint(advice.Complaint)
	if len(reply.Remedies) == 0 {
		reply.Title = "No clicks for this"
		reply.Text = about + ". " + strings.Join(advice.Notes, " ")
		reply.Notes = nil
		return reply
	}
	best := reply.Remedies[0]
	reply.Title = best.Say
	if before := advice.Complaint.What.BeforeClicks(); before != "" {
		reply.Title = before + ". Then: " + best.Say
	}
	if advice.Remedies[0].Failed {
		reply.Title = "Go through the checks first. Then: " + best.Say
	}
	if advice.Remedies[0].Kind.SetsAll() {
		reply.Corners = best.Corners
	}
	reply.Text = fmt.Sprintf("%s. %s\nWatch for %s.", about, best.Why, best.Watch)
	if best.Confidence == string(tuning.WeakerPractice) {
		reply.Text += " The trade is less sure of this one."
	}
	reply.Text += "\nOne change at a time; your own feel decides."
	reply.Actions = adviceActions(c, advice, best)
	return reply
}

// showRemedy shows one remedy of an advice, counted from 1.
func showRemedy(car tuning.Car, advice tuning.Advice, number int) bot.Remedy {
	r := advice.Remedies[number-1]
	return bot.Remedy{
		Rank: number, Say: sayRemedy(car, r), Why: r.Why, Watch: r.Watch, Confidence: string(r.Confidence),
		Corners: bot.CornersOf(car, r.Moves), Apply: bot.ApplyLine(advice.ID, number),
	}
}

// adviceActions are what can follow an advice, the likeliest first.
func adviceActions(c tuning.Case, advice tuning.Advice, best bot.Remedy) []bot.Action {
	actions := []bot.Action{bot.Button("Done: "+shortened(best), best.Apply)}
	if len(advice.Remedies) > 1 {
		actions = append(actions, bot.Button("Another remedy", whyLine(advice.ID, 2)))
	}
	actions = append(actions, bot.Button("Why", whyLine(advice.ID, 1)))
	if last, ok := undoable(c); ok && advice.Remedies[0].Kind != tuning.TakeBack {
		actions = append(actions, undoButton("Undo the last change", c.Car, last.ID))
	}
	return append(actions, bot.Button("How did it feel", "/feel", bot.OfCar(c.Car)))
}

// sayRemedy says a remedy's action in one line.
func sayRemedy(car tuning.Car, r tuning.Remedy) string {
	switch r.Kind {
	case tuning.TakeBack:
		return "Take that change back: " + say.Moves(car, r.Moves)
	case tuning.HalfBack:
		return "Half back: " + say.Moves(car, r.Moves)
	case tuning.ReturnBaseline:
		return "Back to the start: " + say.Turns(car, r.Moves)
	case tuning.GoToWetStart:
		return "Go to the wet start: " + say.Turns(car, r.Moves)
	case tuning.MakeEqual:
		return "Make both sides equal: " + say.Moves(car, r.Moves)
	}
	return say.Moves(car, r.Moves)
}

// shortened is a remedy small enough for a button.
func shortened(r bot.Remedy) string {
	head, _, _ := strings.Cut(r.Say, ":")
	head, _, _ = strings.Cut(head, ", both")
	return head
}
