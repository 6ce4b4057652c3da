package notebook

import (
	"context"
	"fmt"

	"detent/bot"
	"detent/bot/phone"
	"detent/tuning"
)

func copyClicksCommand() bot.Command {
	return declare(bot.Command{Name: "clicks copy", Help: "Take the clicks of another of your cars, by the part of each range", Own: true, Writes: true}, copyClicks)
}

type copyOptions struct {
	From string `name:"from" help:"the car that the clicks come from" required:"later" source:"cars"`
	bot.CarOption
}

func copyClicks(ctx context.Context, call call, o copyOptions) (bot.Reply, error) {
	c, err := call.FindTurnable(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	from, err := call.source(ctx, c.Car, o.From)
	if err != nil {
		return bot.Reply{}, err
	}
	for _, car := range []tuning.Car{from.Car, c.Car} {
		if err := bot.RequireDampers(car); err != nil {
			return bot.Reply{}, err
		}
	}
	b := bringing{
		c: c, head: "As on " + phone.Clip(from.Car.Name, phone.NameColumns),
		said: ": the same part of each range. Another car may want otherwise.",
		line: otherDrive(from.Car, c.Car),
		remedy: tuning.Remedy{Kind: tuning.CopyCar, Of: from.Car.ID, Confidence: tuning.WeakerPractice,
			Why:   tuning.Why("Each adjuster goes to the same part of its range as on " + from.Car.Name + ". Another car may want otherwise."),
			Watch: tuning.WatchOtherCar},
	}
	if from.History.Unrecorded {
		b.line = "Nobody has said where the clicks of the other car stand: I assume its start."
	}
	b.from = from.Car.Dampers
	b.want, b.carried = tuning.Carry(from.Setting, from.Car.Dampers, c.Car, c.Setting)
	if len(b.carried) > 0 {
		b.more = []string{b.sayCarried()}
	}
	return call.bring(ctx, b)
}

// source is the case of the car that clicks come from. One that is not there, not
// named, or the same car, is refused with the cars that can be meant as buttons.
func (c call) source(ctx context.Context, to tuning.Car, name string) (tuning.Case, error) {
	cars, err := c.Book.Cars(ctx, c.Owner())
	if err != nil {
		return tuning.Case{}, err
	}
	others := []bot.Action{}
	for _, car := range cars {
		if car.ID != to.ID && len(others) < mostOffered {
			others = append(others, bot.Button(phone.Clip(car.Name, phone.NameColumns), "/clicks copy", bot.OfCar(car).As("from"), bot.OfCar(to)))
		}
	}
	if len(others) == 0 {
		return tuning.Case{}, &bot.Problem{Kind: tuning.Invalid, Say: fmt.Sprintf("You have no car here but %s to copy from: add one.", to.Name), Actions: []bot.Action{bot.AddCar}}
	}
	if name == "" {
		return tuning.Case{}, bot.Inquire("Which car do the clicks come from?", others...)
	}
	from, err := c.FindCase(ctx, c.Book, name)
	switch p, told := bot.ProblemOf(err); {
	case tuning.KindOf(err) == tuning.NotFound && told:
		return from, &bot.Problem{Kind: p.Kind, Say: p.Say, Actions: others, Err: err}
	case err == nil && from.Car.ID == to.ID:
		return from, &bot.Problem{Kind: tuning.Invalid, Say: fmt.Sprintf("%s cannot be copied to itself: which car takes its clicks?", to.Name), Actions: onto(from.Car, cars)}
	}
	return from, err
}

// mostOffered is the most cars that are offered at once.
const mostOffered = 10

// onto are the buttons that copy a car's clicks to one of the others.
func onto(from tuning.Car, cars []tuning.Car) []bot.Action {
	var actions []bot.Action
	for _, car := range tuning.Running(cars) {
		if car.ID != from.ID && len(actions) < mostOffered {
			actions = append(actions, bot.Button(phone.Clip(car.Name, phone.NameColumns), "/clicks copy", bot.OfCar(from).As("from"), bot.OfCar(car)))
		}
	}
	return actions
}

// otherDrive warns where the engine turns another end, "" where it does not.
func otherDrive(from, to tuning.Car) string {
	if from.Drive == to.Drive {
		return ""
	}
	ends := map[tuning.Drive]string{tuning.FrontDrive: "at the front", tuning.RearDrive: "at the rear", tuning.FourDrive: "at all four"}
	return fmt.Sprintf("Driven %s there, %s here: expect another balance.", ends[from.Drive], ends[to.Drive])
}
