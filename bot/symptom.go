package bot

import (
	"context"
	"fmt"
	"strings"

	"detent/bot/say"
	"detent/tuning"
)

func symptomCommands() []Command {
	var whats []string
	for _, w := range tuning.Whats {
		whats = append(whats, string(w.What))
	}
	return []Command{{Name: "symptom", Help: "What to turn when the car does not do what you want", Writes: true, Answer: symptom, Options: []Option{
		{Name: "what", Help: "what the car does", Kind: Choice, Required: true, Choices: whats},
		{Name: "where", Help: "where in the corner", Kind: Choice, Choices: []string{string(tuning.Entry), string(tuning.Mid), string(tuning.Exit)}},
		{Name: "axle", Help: "which end, for packs-down and bottoms", Kind: Choice, Choices: axleWords},
		weatherOption, carOption,
	}}}
}

func symptom(ctx context.Context, call Call) (Reply, error) {
	c, err := call.running(ctx)
	if err != nil {
		return Reply{}, err
	}
	return giveAdvice(ctx, call, c, tuning.Complaint{
		What: tuning.What(call.Args.Text("what")), Where: tuning.Where(call.Args.Text("where")),
		Axle: axleOf(call.Args), Weather: call.weather(c),
	})
}

// giveAdvice judges a complaint, keeps the advice so that a button can name
// it, and shows it.
func giveAdvice(ctx context.Context, call Call, c tuning.Case, complaint tuning.Complaint) (Reply, error) {
	advice, err := tuning.Advise(c.Car, c.Setting, complaint, c.History, call.Club.Sizes)
	if err != nil {
		return Reply{}, err
	}
	if advice, err = call.Book.SaveAdvice(ctx, advice, c.Setting); err != nil {
		return Reply{}, err
	}
	return judged(sayAdvice(c, advice), c.Car, c.Setting, advice, call.imperial()), nil
}

// sayAdvice shows an advice: the first remedy's action first.
func sayAdvice(c tuning.Case, advice tuning.Advice) Reply {
	reply := Reply{
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
	if advice.Remedies[0].Kind == tuning.ReturnBaseline {
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
func showRemedy(car tuning.Car, advice tuning.Advice, number int) Remedy {
	r := advice.Remedies[number-1]
	return Remedy{
		Rank: number, Say: sayRemedy(car, r), Why: r.Why, Watch: r.Watch, Confidence: string(r.Confidence),
		Corners: cornersOf(car, r.Moves), Apply: applyLine(advice.ID, number),
	}
}

// adviceActions are what can follow an advice, the likeliest first.
func adviceActions(c tuning.Case, advice tuning.Advice, best Remedy) []Action {
	actions := []Action{{"Done: " + best.short(), best.Apply}}
	if len(advice.Remedies) > 1 {
		actions = append(actions, Action{"Another remedy", whyLine(advice.ID, 2)})
	}
	actions = append(actions, Action{"Why", whyLine(advice.ID, 1)})
	if last, ok := undoable(c); ok && advice.Remedies[0].Kind != tuning.TakeBack {
		actions = append(actions, Action{"Undo the last change", undoLine(c.Car, last.ID)})
	}
	return append(actions, Action{"How did it feel", aim("/feel", c.Car)})
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
	}
	return say.Moves(car, r.Moves)
}

// short is a remedy small enough for a button.
func (r Remedy) short() string {
	head, _, _ := strings.Cut(r.Say, ":")
	head, _, _ = strings.Cut(head, ", both")
	return head
}

func applyLine(advice int64, remedy int) string {
	return fmt.Sprintf("/apply advice:%d remedy:%d", advice, remedy)
}
