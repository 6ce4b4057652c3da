package garage

import (
	"context"
	"fmt"
	"slices"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
)

func fitDampersCommand() bot.Command {
	return declare(bot.Command{Name: "damper fit", Help: "Tell what dampers an axle has", Private: true, Writes: true}, fitDampers)
}

func keepCurveCommand() bot.Command {
	return declare(bot.Command{Name: "damper curve", Help: "Give the measured force table of an axle's damper", Private: true, Writes: true}, keepCurve)
}

type fitDampersOptions struct {
	Axle        string       `name:"axle" help:"which dampers" required:"yes" choices:"front,rear,both"`
	Ways        waysWord     `name:"ways" help:"how many adjusters a damper has" required:"yes"`
	Count       tuning.Count `name:"count" help:"the stop you count clicks from" required:"yes"`
	Clicks      int          `name:"clicks" help:"clicks between the stops, when every adjuster has the same" min:"1" max:"99"`
	Bump        int          `name:"bump" help:"clicks of bump" min:"1" max:"99"`
	Rebound     int          `name:"rebound" help:"clicks of rebound" min:"1" max:"99"`
	LowBump     int          `name:"low-bump" help:"clicks of low-speed bump" min:"1" max:"99"`
	HighBump    int          `name:"high-bump" help:"clicks of high-speed bump" min:"1" max:"99"`
	LowRebound  int          `name:"low-rebound" help:"clicks of low-speed rebound" min:"1" max:"99"`
	HighRebound int          `name:"high-rebound" help:"clicks of high-speed rebound" min:"1" max:"99"`
	Moves       tuning.Moves `name:"moves" help:"what a one-way's adjuster moves"`
	bot.CarOption
}

// waysWord is how many adjusters a damper has, in words.
type waysWord string

// Choices lists the words.
func (waysWord) Choices() []string { return tuning.WaysWords }

type curveOptions struct {
	Axle bot.AxleWord `name:"axle" help:"which dampers" required:"yes"`
	File string       `name:"file" help:"the table as CSV: click,speed_mm_s,bump_n,rebound_n" required:"yes" kind:"upload"`
	bot.CarOption
}

func fitDampers(ctx context.Context, call call, o fitDampersOptions) (bot.Reply, error) {
	car, err := call.FindCar(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	damper, err := o.damper()
	if err != nil {
		return bot.Reply{}, err
	}
	for axle := range tuning.Axle(tuning.Axles) {
		if o.Axle != "both" && o.Axle != axle.String() {
			continue
		}
		car.Dampers[axle], car.Curves[axle] = damper, nil
		if err := call.Book.FitDampers(ctx, car, axle, tuning.AxleStart(car, axle, tuning.Dry, call.Club.Sizes)); err != nil {
			return bot.Reply{}, err
		}
	}
	reply := bot.Reply{Title: "Dampers of " + car.Name + " noted", Text: say.Dampers(car)}
	if err := car.Fitted(); err != nil {
		reply.Notes = []string{err.(*bot.Problem).Say}
		return reply, nil
	}
	reply.Notes = []string{"I take the clicks to stand at the start position until you set a baseline or say otherwise with /clicks set."}
	reply.Actions = []bot.Action{bot.Button("Where do I start", "/baseline", bot.OfCar(car))}
	return reply, nil
}

// damper makes a damper of what was said.
func (o fitDampersOptions) damper() (tuning.Damper, error) {
	d := tuning.Damper{Count: o.Count, Moves: o.Moves, Ways: tuning.Ways(1 + slices.Index(tuning.WaysWords, string(o.Ways)))}
	for _, adjuster := range d.Adjusters() {
		d.Range[adjuster] = o.Clicks
	}
	own := [tuning.Adjusters]int{tuning.Bump: o.Bump, tuning.Rebound: o.Rebound, tuning.LowBump: o.LowBump,
		tuning.HighBump: o.HighBump, tuning.LowRebound: o.LowRebound, tuning.HighRebound: o.HighRebound}
	for adjuster, clicks := range own {
		if clicks != 0 {
			d.Range[adjuster] = clicks
		}
	}
	if d.Ways == 1 && d.Moves == "" {
		d.Moves = tuning.MovesRebound
	}
	return d, d.Validate()
}

func keepCurve(ctx context.Context, call call, o curveOptions) (bot.Reply, error) {
	car, err := call.FindCar(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	axle := *o.Axle.Axle()
	if !car.Dampers[axle].Fitted() {
		return bot.Reply{}, bot.Problemf(tuning.Invalid, "Tell me the %s dampers first with /damper fit, then send their force table.", axle)
	}
	table, err := tuning.ParseForceTable(o.File)
	if err != nil {
		return bot.Reply{}, err
	}
	if err := table.Fits(car.Dampers[axle]); err != nil {
		return bot.Reply{}, err
	}
	if err := call.Book.SaveCurve(ctx, car, axle, table); err != nil {
		return bot.Reply{}, err
	}
	return bot.Reply{
		Title: fmt.Sprintf("Force table of the %s dampers of %s kept", axle, car.Name),
		Text: fmt.Sprintf("%d clicks from %d to %d from soft, shaft speeds from %.3g to %.3g mm/s. It takes the place of the assumed damper in every figure.",
			len(table.Clicks), table.Clicks[0], table.Clicks[len(table.Clicks)-1],
			1000*float64(table.Speeds[0]), 1000*float64(table.Speeds[len(table.Speeds)-1])),
		Actions: []bot.Action{bot.Button("Show the car", "/car show", bot.OfCar(car))},
	}, nil
}
