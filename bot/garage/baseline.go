package garage

import (
	"context"
	"fmt"
	"strings"

	"detent/bot"
	"detent/bot/model"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
)

func baselineCommand() bot.Command {
	return declare(bot.Command{Name: "baseline", Help: "Where to start with the adjusters", Own: true, Writes: true}, answerBaseline)
}

type baselineOptions struct {
	bot.CarOption
	weatherOption
}

func answerBaseline(ctx context.Context, call call, o baselineOptions) (bot.Reply, error) {
	c, err := call.FindTurnable(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	if err := bot.RequireDampers(c.Car); err != nil {
		return bot.Reply{}, err
	}
	return giveBaseline(ctx, call, c, o.at(c))
}

// giveBaseline keeps the start as an advice, so that a button can set it, and
// shows it.
func giveBaseline(ctx context.Context, call call, c tuning.Case, weather tuning.Weather) (bot.Reply, error) {
	start, err := tuning.Baseline(c.Car, weather, call.Club.Sizes)
	if err != nil {
		return bot.Reply{}, err
	}
	moves := c.Setting.Across(start, c.Car)
	modelled := model.StartOf(c.Car, start)
	remedies := []tuning.Remedy{{Kind: tuning.ReturnBaseline, Why: tuning.WhyTheStart, Confidence: tuning.CommonPractice, Moves: moves}}
	if modelled.Inside != start {
		remedies = append(remedies, tuning.Remedy{Kind: tuning.ReturnBaseline, Why: tuning.WhyStartInWindow,
			Confidence: tuning.WeakerPractice, Moves: c.Setting.Across(modelled.Inside, c.Car)})
	}
	advice, err := call.Book.SaveAdvice(ctx, tuning.Advice{Car: c.Car.ID, Complaint: tuning.Complaint{Weather: weather}, Remedies: remedies}, c.Setting)
	if err != nil {
		return bot.Reply{}, err
	}
	reply := bot.Reply{
		Title:    "Start " + phone.Clip(c.Car.Name, phone.NameColumns) + sayStart(c.Car, start),
		Text:     say.Capital(string(weather)) + ".",
		Corners:  bot.CornersOf(c.Car, moves),
		Notes:    say.StartReasons(tuning.StartReasons(c.Car, weather)),
		Cautions: say.Cautions(tuning.BaselineCautions(c.Car, moves)),
	}
	reply = startSteps(reply, c, advice, weather, c.Setting.Toward(start, c.Car))
	if reply.View.Line == "" {
		unseen, err := call.Book.Unseen(ctx, call.Owner())
		if err != nil {
			return bot.Reply{}, err
		}
		if line, read := coachLine(unseen, call.Zone()); line != "" {
			reply.View.Line, reply.Actions = line, append(reply.Actions, read)
		}
	}
	if modelled.Outside != "" && reply.View.Line == "" {
		reply.View.Line = outsideWindow
	}
	return modelled.Show(reply, call.Imperial()), nil
}

// outsideWindow is said of a start that the model would move.
const outsideWindow = "The model sees this start outside its window. The trade's start stands."

// startSteps says how to get to a start, and what can be pressed then.
func startSteps(reply bot.Reply, c tuning.Case, advice tuning.Advice, weather tuning.Weather, turns []tuning.Move) bot.Reply {
	reply.View = bot.View{Quiet: true, Care: bot.CareFor(c.Car, turns)}
	switch {
	case c.History.Unrecorded:
		reply.Text += " Go gently to the stop, count out, and press when all are set."
	case len(turns) == 0:
		reply.Text += " It stands there already."
		reply.View.Care = bot.Care{}
	default:
		reply.Text += " Turn what the table shows, and press when all are set."
		reply.View.Moves = bot.Moving(reply.Corners)
	}
	if c.History.Unrecorded || len(turns) > 0 {
		reply.Actions = append(reply.Actions, bot.Button("These are set now", bot.ApplyLine(advice.ID, 1)))
	}
	if len(advice.Remedies) > 1 {
		reply.Actions = append(reply.Actions, bot.Button("Nearest in the window", bot.ApplyLine(advice.ID, 2)))
	}
	if weather == tuning.Dry && len(turns) > 0 {
		reply.Actions = append(reply.Actions, bot.Button("If it is wet", "/baseline weather:wet", bot.OfCar(c.Car)))
	}
	reply.Actions = append(reply.Actions, bot.Why(advice.ID, 1))
	return showChecks(reply, c.History)
}

// showChecks shows what to look at before any click with a reply that names
// clicks, once an event.
func showChecks(reply bot.Reply, h tuning.History) bot.Reply {
	if h.ChecksDue {
		reply.First = say.Checks(tuning.Checks)
	}
	if h.ChecksToShow() {
		reply.View.Line, reply.Actions = say.ChecksLine, append(reply.Actions, checksButton)
	}
	return reply
}

// sayStart says a start in a few words where one number an axle says it all:
// " at front 19, rear 16 from hard".
func sayStart(car tuning.Car, start tuning.Setting) string {
	var at [tuning.Axles]string
	for axle := range tuning.Axle(tuning.Axles) {
		d := car.Dampers[axle]
		for _, a := range d.Adjusters() {
			shown := d.Shown(a, start[axle.Corners()[0]][a])
			if at[axle] != "" && at[axle] != shown {
				return ": set each adjuster as the table shows"
			}
			at[axle] = shown
		}
	}
	return fmt.Sprintf(" at front %s, rear %s", at[tuning.Front], at[tuning.Rear])
}

// tellWeather adds the weather to a sentence when it is wet.
func tellWeather(s string, w tuning.Weather) string {
	if w == tuning.Wet {
		return strings.TrimSuffix(s, ".") + ", in the wet."
	}
	return s
}
