package garage

import (
	"context"
	"fmt"
	"slices"

	"detent/bot"
	"detent/bot/reading"
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
	Axle        string       `name:"axle" help:"which dampers" required:"yes" choices:"front,rear,both" ask:"Which dampers?"`
	Ways        waysWord     `name:"ways" help:"how many adjusters a damper has" required:"yes" ask:"How many ways do the dampers adjust?"`
	Count       tuning.Count `name:"count" help:"the stop you count clicks from" required:"later" ask:"Which stop do you count from?"`
	Clicks      int          `name:"clicks" help:"clicks between the stops, when every adjuster has the same" min:"1" max:"99" common:"7,12,16,20,24,30,32,40" ask:"How many clicks from stop to stop?"`
	Bump        int          `name:"bump" help:"clicks of bump" min:"1" max:"99"`
	Rebound     int          `name:"rebound" help:"clicks of rebound" min:"1" max:"99"`
	LowBump     int          `name:"low-bump" help:"clicks of low-speed bump" min:"1" max:"99"`
	HighBump    int          `name:"high-bump" help:"clicks of high-speed bump" min:"1" max:"99"`
	LowRebound  int          `name:"low-rebound" help:"clicks of low-speed rebound" min:"1" max:"99"`
	HighRebound int          `name:"high-rebound" help:"clicks of high-speed rebound" min:"1" max:"99"`
	Moves       tuning.Moves `name:"moves" help:"what a one-way's adjuster moves" ask:"What does the single adjuster move?"`
	bot.CarOption
}

// waysWord is how many adjusters a damper has, in words.
type waysWord string

// Choices lists the words.
func (waysWord) Choices() []string { return tuning.WaysWords }

type curveOptions struct {
	Axle reading.AxleWord `name:"axle" help:"which dampers" required:"yes"`
	File string           `name:"file" help:"the table as CSV: click,speed_mm_s,bump_n,rebound_n" required:"yes" kind:"upload"`
	bot.CarOption
}

func fitDampers(ctx context.Context, call call, o fitDampersOptions) (bot.Reply, error) {
	car, err := call.FindCar(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	if lacks := o.lacks(); lacks != "" {
		return bot.Reply{}, call.Missing(lacks, bot.OfCar(car))
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
	return sayFitted(ctx, call, car)
}

// lacks is the option that is to be asked for next, "" for none.
func (o fitDampersOptions) lacks() string {
	said := o.Clicks + o.Bump + o.Rebound + o.LowBump + o.HighBump + o.LowRebound + o.HighRebound
	switch {
	case said == 0:
		return "clicks"
	case o.Count != "":
		return "" // a one-way that is not said to move more moves rebound
	case o.Ways == waysWord(tuning.Ways(1).String()) && o.Moves == "":
		return "moves"
	}
	return "count"
}

// sayFitted says what dampers were saved, and goes on to what comes next: the
// other axle, or the start.
func sayFitted(ctx context.Context, call call, car tuning.Car) (bot.Reply, error) {
	saved := "Dampers of " + car.Name + " saved"
	for axle := range tuning.Axle(tuning.Axles) {
		if !car.Dampers[axle].Fitted() {
			return bot.Reply{Title: saved, Text: fmt.Sprintf("%s\nNext: the %s dampers.", say.Dampers(car), axle),
				Actions: []bot.Action{bot.Dampers(car)}}, nil
		}
	}
	c, err := call.FindCase(ctx, call.Book, car.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	if c.Car.Retired || call.CheckSound(c.Car, c.History.LastNotes()) != nil {
		return bot.Reply{Title: saved, Text: say.Dampers(car)}, nil
	}
	start, err := giveBaseline(ctx, call, c, weatherOption{}.at(c))
	how := start.Text
	if start.Text = saved + ".\n" + how; !start.Whole() {
		start.Text = "Dampers saved. " + how
	}
	start.Notes = append([]string{"I assume the clicks are at the start. Different? Tell me with /clicks set."}, start.Notes...)
	return start, err
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
		return bot.Reply{}, &bot.Problem{Kind: tuning.Invalid, Say: fmt.Sprintf("Tell me the %s dampers first, then send their force table.", axle),
			Actions: []bot.Action{bot.Dampers(car)}}
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
		Title: fmt.Sprintf("Force table of the %s dampers of %s saved", axle, car.Name),
		Text: fmt.Sprintf("%d clicks from %d to %d from soft, shaft speeds from %.3g to %.3g mm/s. It takes the place of the assumed damper in every figure.",
			len(table.Clicks), table.Clicks[0], table.Clicks[len(table.Clicks)-1],
			1000*float64(table.Speeds[0]), 1000*float64(table.Speeds[len(table.Speeds)-1])),
		Actions: []bot.Action{bot.Button("Show the car", "/car show", bot.OfCar(car))},
	}, nil
}
