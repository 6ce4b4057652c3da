package garage

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"detent/bot"
	"detent/bot/model"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
)

func addCarCommand() bot.Command {
	return declare(bot.Command{Name: "car add", Help: "Add a car", Private: true, Writes: true}, addCar)
}

func listCarsCommand() bot.Command {
	return declare(bot.Command{Name: "car list", Help: "List your cars", Private: true}, listCars)
}

func showCarCommand() bot.Command {
	return declare(bot.Command{Name: "car show", Help: "Show what is known of a car", Private: true}, showCar)
}

func editCarCommand() bot.Command {
	return declare(bot.Command{Name: "car edit", Help: "Change what is known of a car", Private: true, Writes: true,
		Form: []string{"mass", "front-share", "spring-front", "spring-rear", "tyre"}}, editCar)
}

func mainCarCommand() bot.Command {
	return declare(bot.Command{Name: "car main", Help: "Name the car that is meant when none is named", Private: true, Writes: true}, mainCar)
}

func retireCarCommand() bot.Command {
	return declare(bot.Command{Name: "car retire", Help: "Put a car away; its record stays", Private: true, Writes: true}, retireCar)
}

type addCarOptions struct {
	Drive  tuning.Drive  `name:"drive" help:"the axle the engine turns" required:"yes" ask:"Which wheels does the engine drive?"`
	Engine tuning.Engine `name:"engine" help:"where the engine sits" required:"yes" ask:"Where is the engine?"`
	Name   *string       `name:"name" help:"what you call the car; you can change it later"`
	chassisOptions
}

type editCarOptions struct {
	bot.CarOption
	carDetails
}

// carDetails are all that may be said of a car.
type carDetails struct {
	Name   *string       `name:"name" help:"what you call the car"`
	Drive  tuning.Drive  `name:"drive" help:"the axle the engine turns"`
	Engine tuning.Engine `name:"engine" help:"where the engine sits"`
	chassisOptions
}

// chassisOptions are what may be said of a car beside its name and layout.
type chassisOptions struct {
	Figures givenFigures
	Tyre    tuning.Tyre `name:"tyre" help:"kind of tyre"`
	Aero    tuning.Aero `name:"aero" help:"downforce"`
	Use     tuning.Use  `name:"use" help:"where it is driven"`
}

func addCar(ctx context.Context, call call, o addCarOptions) (bot.Reply, error) {
	cars, err := call.Book.Cars(ctx, call.Owner())
	if err != nil {
		return bot.Reply{}, err
	}
	if len(cars) >= maxCars {
		return bot.Reply{}, bot.Problemf(tuning.Limit, "You have %d cars here, which is the most: change one with /car edit instead.", maxCars)
	}
	car := tuning.Car{Owner: call.Owner(), Tyre: tuning.RoadTyre, Aero: tuning.NoAero, Use: tuning.TrackUse, Main: len(tuning.Running(cars)) == 0}
	if o.Name == nil {
		name := freeName(cars)
		o.Name = &name
	}
	car, err = carDetails{o.Name, o.Drive, o.Engine, o.chassisOptions}.onto(car)
	if err != nil {
		return bot.Reply{}, err
	}
	if car, err = call.Book.SaveCar(ctx, car); err != nil {
		return bot.Reply{}, err
	}
	return bot.Reply{
		Title: car.Name + " is saved",
		Text:  sayCar(car, call.Imperial()) + "\nNext, its dampers: how many ways do they adjust?",
		Actions: append(waysActions(car),
			bot.Button("Name it", "/car edit name:"+bot.Blank, bot.OfCar(car)), bot.Button("Show the car", "/car show", bot.OfCar(car))),
	}, nil
}

// waysActions begin the dampers of a car, the same at both ends, with their
// number of ways.
func waysActions(car tuning.Car) []bot.Action {
	var actions []bot.Action
	for _, ways := range tuning.WaysWords {
		actions = append(actions, bot.Button(say.Choice("ways", ways), "/damper fit axle:both ways:"+ways, bot.OfCar(car)))
	}
	return actions
}

// freeName proposes a name that none of the cars has.
func freeName(cars []tuning.Car) string {
	name := "My car"
	taken := func(c tuning.Car) bool { return strings.EqualFold(c.Name, name) }
	for n := 2; slices.ContainsFunc(cars, taken); n++ {
		name = fmt.Sprintf("My car %d", n)
	}
	return name
}

// maxCars is the most cars one person keeps in a club.
const maxCars = 50

// onto puts what was said onto a car.
func (o carDetails) onto(car tuning.Car) (tuning.Car, error) {
	if o.Name != nil {
		name, err := tuning.CheckName(*o.Name)
		if err != nil {
			return car, err
		}
		car.Name = name
	}
	car.Drive = cmp.Or(o.Drive, car.Drive)
	car.Engine = cmp.Or(o.Engine, car.Engine)
	car.Tyre, car.Aero, car.Use = cmp.Or(o.Tyre, car.Tyre), cmp.Or(o.Aero, car.Aero), cmp.Or(o.Use, car.Use)
	if err := o.Figures.onto(&car); err != nil {
		return car, err
	}
	return car, car.Validate()
}

func listCars(ctx context.Context, call call, o bot.MoreOption) (bot.Reply, error) {
	cars, err := call.Book.Cars(ctx, call.Owner())
	if err != nil {
		return bot.Reply{}, err
	}
	if len(cars) == 0 {
		return bot.Reply{Title: "No cars yet", Text: "Add one: two questions, and its dampers after that.", Actions: []bot.Action{bot.AddCar}}, nil
	}
	var lines []string
	for _, c := range cars {
		line := fmt.Sprintf("%s: %s engine, %s drive", c.Name, c.Engine, say.Drive(c.Drive))
		switch {
		case c.Retired:
			line += ", retired"
		case c.Main:
			line += ", the main car"
		}
		lines = append(lines, line)
	}
	return o.Paged(bot.Reply{Title: "Your " + say.Count(len(cars), "car", "cars"), Text: strings.Join(lines, "\n")}, "/car list"), nil
}

// showCarOptions tell which part of what is known of a car is wanted.
type showCarOptions struct {
	bot.CarOption
	Part string `name:"part" help:"figures: what the model makes of it" choices:"figures"`
	bot.MoreOption
}

func showCar(ctx context.Context, call call, o showCarOptions) (bot.Reply, error) {
	c, err := call.FindCase(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	reply := bot.Reply{Title: c.Car.Name, Text: sayCar(c.Car, call.Imperial()) + "\n" + say.Dampers(c.Car)}
	if c.Car.Fitted() == nil {
		reply.Corners = bot.Standing(c.Car, c.Setting)
		reply.Actions = []bot.Action{bot.Button("Where do I start", "/baseline", bot.OfCar(c.Car)), bot.Button("What did I change", "/log", bot.OfCar(c.Car))}
	}
	reply = model.Show(reply, c, call.Imperial())
	if o.Part != "" {
		reply.Title, reply.Text, reply.View.NoTable = "Figures of "+c.Car.Name, "", true
		return o.Paged(reply, "/car show part:figures", bot.OfCar(c.Car)), nil
	}
	reply.Actions = append(reply.Actions, bot.Button("Figures", "/car show part:figures", bot.OfCar(c.Car)), bot.Button("Give weights and springs", "/car edit", bot.OfCar(c.Car)))
	more := bot.Button("More", "/car show", bot.OfCar(c.Car))
	reply.View = bot.View{Size: phone.Page, Quiet: true, From: o.From, More: &more}
	return reply, nil
}

func editCar(ctx context.Context, call call, o editCarOptions) (bot.Reply, error) {
	car, err := call.FindCar(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	if bot.GivesNothing(o.carDetails) {
		return bot.Reply{}, bot.Problemf(tuning.Invalid, "Say what to change, for example mass:1250kg or tyre:slick; /help car edit lists it all.")
	}
	if car, err = o.onto(car); err != nil {
		return bot.Reply{}, err
	}
	if car, err = call.Book.SaveCar(ctx, car); err != nil {
		return bot.Reply{}, err
	}
	return bot.Reply{View: bot.View{Size: phone.Page}, Title: car.Name + " is saved", Text: sayCar(car, call.Imperial()),
		Actions: []bot.Action{bot.Button("Show the car", "/car show", bot.OfCar(car))}}, nil
}

func mainCar(ctx context.Context, call call, o bot.CarOption) (bot.Reply, error) {
	car, err := call.FindCar(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	car.Main, car.Retired = true, false // naming a retired car brings it back
	if _, err = call.Book.SaveCar(ctx, car); err != nil {
		return bot.Reply{}, err
	}
	return bot.Reply{Title: car.Name + " is your main car", Text: "It is meant whenever you name no car."}, nil
}

func retireCar(ctx context.Context, call call, o bot.CarOption) (bot.Reply, error) {
	car, err := call.FindCar(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	car.Retired, car.Main = true, false
	if _, err = call.Book.SaveCar(ctx, car); err != nil {
		return bot.Reply{}, err
	}
	left, err := call.LeaveAll(ctx, call.Book, car)
	if err != nil {
		return bot.Reply{}, err
	}
	return bot.Reply{Title: car.Name + " is retired", Notes: left, Text: "Its record stays; read its log by name, and bring it back with /car main."}, nil
}

// sayCar says all that is known of a car's chassis.
func sayCar(car tuning.Car, imperial bool) string {
	layout := fmt.Sprintf("%s engine, %s drive, %s tyres, downforce %s, %s.", say.Capital(string(car.Engine)), say.Drive(car.Drive),
		car.Tyre, car.Aero, strings.ReplaceAll(string(car.Use), "-", " "))
	return strings.Join(append([]string{layout}, say.Figures(car, imperial)...), "\n")
}
