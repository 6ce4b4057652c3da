package bot

import (
	"context"
	"fmt"

	"detent/bot/say"
	"detent/tuning"
)

func damperCommands() []Command {
	clicks := func(name, help string) Option {
		return Option{Name: name, Help: help, Kind: Whole, Min: 1, Max: tuning.MaxRange}
	}
	return []Command{
		{Name: "damper fit", Help: "Tell what dampers an axle has", Private: true, Writes: true, Answer: fitDampers, Options: []Option{
			{Name: "axle", Help: "which dampers", Kind: Choice, Required: true, Choices: []string{"front", "rear", "both"}},
			{Name: "ways", Help: "how many adjusters a damper has", Kind: Choice, Required: true, Choices: tuning.WaysWords},
			{Name: "count", Help: "the stop you count clicks from", Kind: Choice, Required: true, Choices: []string{string(tuning.FromHard), string(tuning.FromSoft)}},
			clicks("clicks", "clicks between the stops, when every adjuster has the same"),
			clicks("bump", "clicks of bump"), clicks("rebound", "clicks of rebound"),
			clicks("low-bump", "clicks of low-speed bump"), clicks("high-bump", "clicks of high-speed bump"),
			clicks("low-rebound", "clicks of low-speed rebound"), clicks("high-rebound", "clicks of high-speed rebound"),
			{Name: "moves", Help: "what a one-way's adjuster moves", Kind: Choice, Choices: []string{string(tuning.MovesRebound), string(tuning.MovesBoth)}},
			carOption,
		}},
		{Name: "damper curve", Help: "Give the measured force table of an axle's damper", Private: true, Writes: true, Answer: keepCurve, Options: []Option{
			{Name: "axle", Help: "which dampers", Kind: Choice, Required: true, Choices: axleWords},
			{Name: "file", Help: "the table as CSV: click,speed_mm_s,bump_n,rebound_n", Kind: Upload, Required: true},
			carOption,
		}},
	}
}

func fitDampers(ctx context.Context, call Call) (Reply, error) {
	car, err := call.theCar(ctx)
	if err != nil {
		return Reply{}, err
	}
	damper, err := describeDamper(call.Args)
	if err != nil {
		return Reply{}, err
	}
	for axle := range tuning.Axle(tuning.Axles) {
		if word := call.Args.Text("axle"); word != "both" && word != axle.String() {
			continue
		}
		car.Dampers[axle], car.Curves[axle] = damper, nil
		if err := call.Book.FitDampers(ctx, car, axle, tuning.AxleStart(car, axle, tuning.Dry, call.Club.Sizes)); err != nil {
			return Reply{}, err
		}
	}
	reply := Reply{Title: "Dampers of " + car.Name + " noted", Text: say.Dampers(car)}
	if err := car.Fitted(); err != nil {
		reply.Notes = []string{err.(*tuning.Problem).Say}
		return reply, nil
	}
	reply.Notes = []string{"I take the clicks to stand at the start position until you set a baseline or say otherwise with /clicks set."}
	reply.Actions = []Action{{"Where do I start", aim("/baseline", car)}}
	return reply, nil
}

// describeDamper makes a damper of what was said.
func describeDamper(a Args) (tuning.Damper, error) {
	d := tuning.Damper{Count: tuning.Count(a.Text("count")), Moves: tuning.Moves(a.Text("moves"))}
	for i, word := range tuning.WaysWords {
		if a.Text("ways") == word {
			d.Ways = tuning.Ways(i + 1)
		}
	}
	for _, adjuster := range d.Adjusters() {
		d.Range[adjuster] = a.Whole("clicks")
	}
	for adjuster := range tuning.Adjuster(tuning.Adjusters) {
		if a.Has(adjuster.String()) {
			d.Range[adjuster] = a.Whole(adjuster.String())
		}
	}
	if d.Ways == 1 && d.Moves == "" {
		d.Moves = tuning.MovesRebound
	}
	return d, d.Validate()
}

func keepCurve(ctx context.Context, call Call) (Reply, error) {
	car, err := call.theCar(ctx)
	if err != nil {
		return Reply{}, err
	}
	axle := *axleOf(call.Args)
	if !car.Dampers[axle].Fitted() {
		return Reply{}, tuning.Problemf(tuning.Invalid, "Tell me the %s dampers first with /damper fit, then send their force table.", axle)
	}
	table, err := tuning.ParseForceTable(call.Args.Text("file"))
	if err != nil {
		return Reply{}, err
	}
	if err := table.Fits(car.Dampers[axle]); err != nil {
		return Reply{}, err
	}
	if err := call.Book.SaveCurve(ctx, car, axle, table); err != nil {
		return Reply{}, err
	}
	return Reply{
		Title: fmt.Sprintf("Force table of the %s dampers of %s kept", axle, car.Name),
		Text: fmt.Sprintf("%d clicks from %d to %d from soft, shaft speeds from %.3g to %.3g mm/s. It takes the place of the assumed damper in every figure.",
			len(table.Clicks), table.Clicks[0], table.Clicks[len(table.Clicks)-1],
			1000*float64(table.Speeds[0]), 1000*float64(table.Speeds[len(table.Speeds)-1])),
		Actions: []Action{{"Show the car", aim("/car show", car)}},
	}, nil
}
