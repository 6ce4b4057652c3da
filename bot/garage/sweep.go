package garage

import (
	"context"
	"fmt"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
)

func startSweepCommand() bot.Command {
	return declare(bot.Command{Name: "sweep start", Help: "Begin the grip search: all four bump stiffer, a step a run",
		Private: true, Writes: true}, startSweep)
}

func runSweepCommand() bot.Command {
	return declare(bot.Command{Name: "sweep run", Help: "Say how the run of the search went", Private: true, Writes: true}, runSweep)
}

func stopSweepCommand() bot.Command {
	return declare(bot.Command{Name: "sweep stop", Help: "End the grip search where it stands", Private: true, Writes: true}, stopSweep)
}

// sweepOptions name a search.
type sweepOptions struct {
	bot.CarOption
	weatherOption
}

type runSweepOptions struct {
	Hop  bool `name:"hop" help:"did it begin to hop over bumps" required:"yes"`
	Grip int  `name:"grip" help:"grip, 1 to 10" min:"1" max:"10"`
	Run  int  `name:"run" help:"the number of the run, the next when not said" min:"1" max:"999"`
	sweepOptions
}

func startSweep(ctx context.Context, call call, o sweepOptions) (bot.Reply, error) {
	c, err := call.FindTurnable(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	if err := bot.RequireDampers(c.Car); err != nil {
		return bot.Reply{}, err
	}
	weather := o.at(c)
	switch running, err := call.Book.Search(ctx, c.Car, weather); {
	case err == nil:
		return bot.Reply{}, bot.Problemf(tuning.Conflict, "A %s search on %s is under way after %s: go on with /sweep run, or end it with /sweep stop.",
			weather, c.Car.Name, say.Count(len(running.Runs), "run", "runs"))
	case tuning.KindOf(err) != tuning.NotFound:
		return bot.Reply{}, err
	}
	search := tuning.Search{Car: c.Car.ID, Weather: weather, Started: call.Now()}
	moves, _, err := search.Step(c.Car, c.Setting, false, call.Club.Sizes)
	if err != nil {
		return bot.Reply{}, err
	}
	if search, err = call.Book.SaveSearch(ctx, search); err != nil {
		return bot.Reply{}, err
	}
	reply := bot.Reply{
		Title:    "Grip search begun: run as it stands first",
		Text:     tellWeather(phone.Clip(c.Car.Name, phone.NameColumns)+". Drive a few laps, then say whether it hops. While it does not, all four bump go a step stiffer each run.", weather),
		Corners:  bot.Standing(c.Car, c.Setting),
		Cautions: say.Cautions(tuning.BaselineCautions(c.Car, moves)),
		Actions:  searchActions(c.Car, search),
		View:     bot.View{Quiet: true, NoTable: true, Care: searchCare(c.Car, moves)},
	}
	if start, err := tuning.Baseline(c.Car, weather, call.Club.Sizes); err == nil && start != c.Setting {
		reply.Notes = append(reply.Notes, "It does not stand at its start, and the search keeps the split between front and rear as it is now; /baseline shows the start.")
	}
	reply = showChecks(reply, c.History)
	reply.Notes = append(reply.Notes, say.Standing(c)...)
	return reply, nil
}

// searchCare are the cautions of a step of the search.
func searchCare(car tuning.Car, moves []tuning.Move) bot.Care {
	care := bot.CareFor(car, moves)
	care.Search = true
	return care
}

func searchActions(car tuning.Car, s tuning.Search) []bot.Action {
	next := fmt.Sprintf(" run:%d", len(s.Runs)+1)
	tail := " weather:" + string(s.Weather)
	return []bot.Action{
		bot.Button("No hop", "/sweep run hop:no"+next+tail, bot.OfCar(car)),
		bot.Button("It hops", "/sweep run hop:yes"+next+tail, bot.OfCar(car)),
		bot.Button("End the search", "/sweep stop"+tail, bot.OfCar(car)),
	}
}

// underWay finds the case and the search that a line is about.
func underWay(ctx context.Context, call call, o sweepOptions) (tuning.Case, tuning.Search, error) {
	c, err := call.FindRunning(ctx, call.Book, o.Car)
	if err != nil {
		return c, tuning.Search{}, err
	}
	weather := o.at(c)
	search, err := call.Book.Search(ctx, c.Car, weather)
	if tuning.KindOf(err) == tuning.NotFound {
		err = bot.Problemf(tuning.NotFound, "No %s search is under way on %s: begin one with /sweep start.", weather, c.Car.Name)
	}
	return c, search, err
}

func runSweep(ctx context.Context, call call, o runSweepOptions) (bot.Reply, error) {
	c, search, err := underWay(ctx, call, o.sweepOptions)
	if err != nil {
		return bot.Reply{}, err
	}
	if err := call.CheckSound(c.Car, c.History.LastNotes()); err != nil {
		return bot.Reply{}, err
	}
	next := len(search.Runs) + 1
	switch number := o.Run; {
	case number == 0 || number == next:
	case number < next:
		return bot.Reply{Title: fmt.Sprintf("Run %d is noted already", number), Text: "It counts once, however often you press.",
			Corners: bot.Standing(c.Car, c.Setting), Notes: searchNotes(search), View: bot.View{Quiet: true, NoTable: true}}, nil
	default:
		return bot.Reply{}, bot.Problemf(tuning.Invalid, "The next run is number %d: leave run out, or give that.", next)
	}
	moves, end, err := search.Step(c.Car, c.Setting, o.Hop, call.Club.Sizes)
	if err != nil {
		return bot.Reply{}, err
	}
	if len(moves) > 0 {
		if _, err := call.Book.Record(ctx, c.Car, tuning.Change{At: call.Now(), By: call.Owner(), Reason: tuning.BySearch, Moves: moves}); err != nil {
			return bot.Reply{}, err
		}
	}
	run := tuning.Run{At: call.Now(), Hop: o.Hop, Grip: o.Grip}
	if len(moves) > 0 {
		run.Clicks = moves[0].To - moves[0].From
	}
	search.Runs = append(search.Runs, run)
	if end != "" {
		search.Why, search.Stopped = end, call.Now()
	}
	if search, err = call.Book.SaveSearch(ctx, search); err != nil {
		return bot.Reply{}, err
	}
	return saySearch(c, search, moves), nil
}

// saySearch says what follows a run of the search.
func saySearch(c tuning.Case, s tuning.Search, moves []tuning.Move) bot.Reply {
	now := settingAfter(c.Setting, moves)
	reply := bot.Reply{
		Title:    say.Turns(c.Car, moves),
		Corners:  bot.CornersOf(c.Car, c.Setting.Across(now, c.Car)),
		Cautions: say.Cautions(tuning.BaselineCautions(c.Car, moves)),
		View:     bot.View{Quiet: true, Moves: bot.CornersOf(c.Car, moves), Care: searchCare(c.Car, moves)},
	}
	runs := fmt.Sprintf("%s, run %d in the %s", phone.Clip(c.Car.Name, phone.NameColumns), len(s.Runs), s.Weather)
	switch s.Why {
	case tuning.EndHop:
		reply.Text = runs + ". It hops: back off, and this is the peak. The search is over."
		if len(s.Runs) == 1 {
			reply.Text = runs + ". It hops where it began: back off. The search is over."
			reply.View.Line = "Look at springs, tyres and pressures next."
		}
		if len(moves) == 0 {
			reply.Title = "It hops, and no click is left to back off"
			reply.Text = runs + ". The search is over: look at springs, tyres and pressures first."
		}
	case tuning.EndStop:
		reply.Title = "The stop is reached: the search ends here"
		reply.Text = runs + ". An adjuster has no click left and the car does not hop: the peak is not inside its range."
	default:
		reply.Text = runs + ". Turn that, run again: does it hop?"
		reply.Actions = searchActions(c.Car, s)
	}
	if len(moves) == 0 {
		reply.View.NoTable, reply.View.Care = true, bot.Care{}
	}
	if s.Why != "" {
		reply.Actions = []bot.Action{bot.Button("How did it feel", "/feel", bot.OfCar(c.Car)), bot.Button("Where do the clicks stand", "/clicks show", bot.OfCar(c.Car))}
	}
	if reply.Notes = searchNotes(s); reply.View.Line != "" {
		reply.Notes = append([]string{reply.View.Line}, reply.Notes...)
	}
	return reply
}

// searchNotes lists what the driver said after each run.
func searchNotes(s tuning.Search) []string {
	var notes []string
	for i, r := range s.Runs {
		note := fmt.Sprintf("Run %d: no hop", i+1)
		if r.Hop {
			note = fmt.Sprintf("Run %d: hops", i+1)
		}
		if r.Grip > 0 {
			note += fmt.Sprintf(", grip %d", r.Grip)
		}
		switch {
		case r.Clicks > 0:
			note += fmt.Sprintf("; then %d stiffer", r.Clicks)
		case r.Clicks < 0:
			note += fmt.Sprintf("; then %d softer", -r.Clicks)
		}
		notes = append(notes, note+".")
	}
	return notes
}

func stopSweep(ctx context.Context, call call, o sweepOptions) (bot.Reply, error) {
	c, search, err := underWay(ctx, call, o)
	if err != nil {
		return bot.Reply{}, err
	}
	search.Why, search.Stopped = tuning.EndDriver, call.Now()
	if search, err = call.Book.SaveSearch(ctx, search); err != nil {
		return bot.Reply{}, err
	}
	return bot.Reply{
		Title:   "Search ended after " + say.Count(len(search.Runs), "run", "runs"),
		Text:    phone.Clip(c.Car.Name, phone.NameColumns) + " stays as it stands.",
		Corners: bot.Standing(c.Car, c.Setting), Notes: searchNotes(search), View: bot.View{Quiet: true},
	}, nil
}
