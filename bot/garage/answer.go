package garage

import (
	"fmt"
	"strings"
	"time"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
)

// situation is what an answer to a complaint is written from.
type situation struct {
	c       tuning.Case
	advice  tuning.Advice
	offered int           // of the advice's remedies; a button of the answer has the rest
	unseen  tuning.Unseen // what a coach put to the driver
	order   string        // why the record changed the order, "" where it did not
	zone    *time.Location
}

// say writes the answer: the first remedy's action, the complaint and what to
// watch for, and the one line that applies. All else stands under Why.
func (s situation) say() bot.Reply {
	reply := bot.Reply{First: say.Checks(s.advice.First), Notes: s.notes(), Cautions: say.Cautions(s.advice.Cautions)}
	reply.View.Quiet = true
	for i := range s.offered {
		reply.Remedies = append(reply.Remedies, showRemedy(s.c.Car, s.advice, i+1))
	}
	if fault, told := s.fact(tuning.FaultTold); told {
		return s.sayFault(reply, fault)
	}
	if s.offered == 0 {
		return s.sayNoClicks(reply)
	}
	best := s.advice.Remedies[0]
	reply.Title = s.headline()
	reply.Text = s.about() + s.watch()
	if best.Kind.SetsAll() {
		reply.Corners = reply.Remedies[0].Corners
	}
	reply.View.Moves = bot.Moving(reply.Remedies[0].Corners)
	reply.View.Care = bot.CareFor(s.c.Car, best.Moves)
	line, actions := s.line()
	reply.View.Line = line
	reply.Actions = append(s.actions(), actions...)
	if len(reply.Actions) < mostActions {
		reply.Actions = append(reply.Actions, bot.Button("How did it feel", "/feel", bot.OfCar(s.c.Car)))
	}
	return reply
}

// mostActions is how many buttons an answer has: with the one that shows the
// channel they make two lines.
const mostActions = 5

// about names the car and the complaint.
func (s situation) about() string {
	return phone.Clip(s.c.Car.Name, phone.NameColumns) + ", " + say.Complaint(s.advice.Complaint)
}

// watch says what to watch for, and in mid-corner what does help.
func (s situation) watch() string {
	if s.advice.Complaint.Where == tuning.Mid {
		return ": dampers do little; springs, bars, tyres, ride height do more."
	}
	return ". Watch for " + say.Watch(s.advice.Remedies[0].Watch) + "."
}

// headline says what to do, what comes before the clicks first.
func (s situation) headline() string {
	best := s.advice.Remedies[0]
	action := heading(s.c.Car, best)
	after := action
	if !strings.HasPrefix(action, best.Moves[0].Corner.String()) { // a corner stays in capitals
		after = say.Small(action)
	}
	if before, ok := beforeClicks[s.advice.Complaint.What]; ok {
		return before + ". Then: " + after
	}
	if best.Failed {
		return "Go through the checks first. Then: " + after
	}
	return action
}

// beforeClicks say what comes before any click for some complaints.
var beforeClicks = map[tuning.What]string{
	tuning.Bottoms:  "Bump-stop, ride height, spring first",
	tuning.OneSided: "Check the loaded side first: pressures, tyre, corner weights",
}

// sayNoClicks says what to do where no click answers the complaint.
func (s situation) sayNoClicks(reply bot.Reply) bot.Reply {
	switch before, ok := beforeClicks[s.advice.Complaint.What]; {
	case ok:
		reply.Title = before
	case s.enough():
		reply.Title = "Enough clicks for this: go through the checks"
	default:
		reply.Title = "Springs, bars and tyres first: your clicks cannot help here"
	}
	reply.Text = strings.Join(append([]string{s.about() + "."}, s.notes()...), " ")
	reply.Notes = nil
	reply.Actions = []bot.Action{checksButton, bot.Button("How did it feel", "/feel", bot.OfCar(s.c.Car))}
	return reply
}

// sayFault says the fault that the driver's last notes tell of, in place of an
// answer: whatever else there is to say waits until the car is repaired.
func (s situation) sayFault(reply bot.Reply, fault tuning.Fact) bot.Reply {
	reply.Title, reply.Text = say.Fault(fault.Word)
	reply.Text = phone.Clip(s.c.Car.Name, phone.NameColumns) + ": " + reply.Text
	reply.First, reply.Notes = nil, nil
	reply.Cautions = say.Cautions([]tuning.Caution{tuning.Broken})
	reply.Actions = []bot.Action{bot.Button("How did it feel", "/feel", bot.OfCar(s.c.Car))}
	return reply
}

// enough tells whether the judgement stopped after two tries without a gain.
func (s situation) enough() bool {
	notes := s.advice.Notes
	return len(notes) > 0 && notes[len(notes)-1].Kind == tuning.TwoTries
}

// notes are those of the judgement in sentences.
func (s situation) notes() []string { return say.Facts(s.c.Car, s.advice.Notes, s.zone) }

// checksButton shows what to look at before any click.
var checksButton = bot.Button("Checks", "/help part:checks")

// actions are what can follow an answer, the likeliest first.
func (s situation) actions() []bot.Action {
	actions := []bot.Action{bot.Button("Done", bot.ApplyLine(s.advice.ID, 1))}
	if s.offered > 1 {
		actions = append(actions, bot.Button("Try the other", bot.WhyLine(s.advice.ID, 2)+" part:answer"))
	}
	return append(actions, bot.Why(s.advice.ID, 1))
}

// showRemedy shows one remedy of an advice, counted from 1.
func showRemedy(car tuning.Car, advice tuning.Advice, number int) bot.Remedy {
	r := advice.Remedies[number-1]
	return bot.Remedy{
		Rank: number, Say: sayRemedy(car, r), Why: say.Why(r.Why), Watch: say.Watch(r.Watch), Confidence: string(r.Confidence),
		Corners: bot.CornersOf(car, r.Moves), Apply: bot.ApplyLine(advice.ID, number),
	}
}

// sayRemedy says a remedy's action in one line.
func sayRemedy(car tuning.Car, r tuning.Remedy) string {
	moves := say.Turns(car, r.Moves)
	head, ok := remedyHeads[r.Kind]
	switch {
	case !ok:
		return moves
	case moves == "": // it stands there already
		return head
	}
	return fmt.Sprintf("%s: %s", head, moves)
}

// heading is sayRemedy above the table of what moves: what takes more than a line
// to list is left to the table.
func heading(car tuning.Car, r tuning.Remedy) string {
	action := sayRemedy(car, r)
	if r.Kind.SetsAll() && phone.Width(action) > phone.Columns {
		return remedyHeads[r.Kind] + ", as the table shows"
	}
	return action
}

// remedyHeads say what sort of change a remedy is, where it is no row of the
// table.
var remedyHeads = map[tuning.RemedyKind]string{
	tuning.TakeBack: "Take that change back", tuning.HalfBack: "Half back", tuning.ReturnBaseline: "Back to the start",
	tuning.GoToWetStart: "Go to the wet start", tuning.MakeEqual: "Make both sides equal",
	tuning.LoadKept: "Go to the saved clicks", tuning.CopyCar: "As on the other car",
}
