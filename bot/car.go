package bot

import (
	"context"
	"fmt"
	"strings"

	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/figures"
	"detent/tuning/unit"
)

func carCommands() []Command {
	add := Option{Name: "name", Help: "what you call the car", Required: true}
	drive := Option{Name: "drive", Help: "the axle the engine turns", Kind: Choice, Required: true,
		Choices: []string{string(tuning.FrontDrive), string(tuning.RearDrive), string(tuning.FourDrive)}}
	engine := Option{Name: "engine", Help: "where the engine sits", Kind: Choice, Required: true,
		Choices: []string{string(tuning.FrontEngine), string(tuning.MidEngine), string(tuning.RearEngine)}}
	edit := []Option{carOption, add, drive, engine}
	for i := range edit {
		edit[i].Required = false
	}
	return []Command{
		{Name: "car add", Help: "Add a car", Private: true, Writes: true,
			Form:    []string{"name", "drive", "engine", "mass", "front-share"},
			Options: append([]Option{add, drive, engine}, chassisOptions()...), Answer: addCar},
		{Name: "car list", Help: "List your cars", Private: true, Answer: listCars},
		{Name: "car show", Help: "Show what is known of a car", Private: true, Options: []Option{carOption}, Answer: showCar},
		{Name: "car edit", Help: "Change what is known of a car", Private: true, Writes: true,
			Form:    []string{"mass", "front-share", "spring-front", "spring-rear", "tyre"},
			Options: append(edit, chassisOptions()...), Answer: editCar},
		{Name: "car main", Help: "Name the car that is meant when none is named", Private: true, Writes: true, Options: []Option{carOption}, Answer: mainCar},
		{Name: "car retire", Help: "Put a car away; its record stays", Private: true, Writes: true, Options: []Option{carOption}, Answer: retireCar},
	}
}

// chassisOptions are what may be said of a car beside its name and layout.
func chassisOptions() []Option {
	return []Option{
		measure("mass", "mass of the car with driver", unit.OfMass),
		measure("front-share", "share of the weight on the front axle", unit.OfShare),
		measure("wheelbase", "wheelbase", unit.OfLength),
		measure("track-front", "front track", unit.OfLength),
		measure("track-rear", "rear track", unit.OfLength),
		measure("cg-height", "height of the centre of gravity", unit.OfLength),
		measure("spring-front", "rate of one front spring", unit.OfStiffness),
		measure("spring-rear", "rate of one rear spring", unit.OfStiffness),
		measure("ratio-front", "front motion ratio: spring travel over wheel travel", unit.OfRatio),
		measure("ratio-rear", "rear motion ratio: spring travel over wheel travel", unit.OfRatio),
		zeroable(measure("bar-front", "front anti-roll bar: wheel force per wheel travel difference", unit.OfStiffness)),
		zeroable(measure("bar-rear", "rear anti-roll bar: wheel force per wheel travel difference", unit.OfStiffness)),
		measure("unsprung-front", "unsprung mass of one front corner", unit.OfMass),
		measure("unsprung-rear", "unsprung mass of one rear corner", unit.OfMass),
		measure("tyre-rate-front", "vertical rate of one front tyre", unit.OfStiffness),
		measure("tyre-rate-rear", "vertical rate of one rear tyre", unit.OfStiffness),
		{Name: "tyre", Help: "kind of tyre", Kind: Choice, Choices: []string{string(tuning.RoadTyre), string(tuning.SemiSlick), string(tuning.Slick)}},
		{Name: "aero", Help: "downforce", Kind: Choice, Choices: []string{string(tuning.NoAero), string(tuning.WingAero), string(tuning.HighAero)}},
		{Name: "use", Help: "where it is driven", Kind: Choice, Choices: []string{string(tuning.TrackUse), string(tuning.RoadAndTrackUse)}},
		measure("torque-front", "four-wheel drive: share of the torque at the front", unit.OfShare),
	}
}

func zeroable(o Option) Option { o.Zero = true; return o }

func addCar(ctx context.Context, call Call) (Reply, error) {
	cars, err := call.Book.Cars(ctx, call.owner())
	if err != nil {
		return Reply{}, err
	}
	if len(cars) >= maxCars {
		return Reply{}, tuning.Problemf(tuning.Limit, "You have %d cars here, which is the most: change one with /car edit instead.", maxCars)
	}
	car := tuning.Car{Owner: call.owner(), Tyre: tuning.RoadTyre, Aero: tuning.NoAero, Use: tuning.TrackUse, Main: len(tuning.Running(cars)) == 0}
	car, err = describe(car, call.Args)
	if err != nil {
		return Reply{}, err
	}
	if car, err = call.Book.SaveCar(ctx, car); err != nil {
		return Reply{}, err
	}
	return Reply{
		Title:   car.Name + " is in your garage",
		Text:    sayCar(car, call.imperial()) + "\nNext: tell me its dampers with /damper fit.",
		Actions: []Action{{"Show the car", aim("/car show", car)}},
	}, nil
}

// maxCars is the most cars one person keeps in a club.
const maxCars = 50

// describe puts what was said onto a car.
func describe(car tuning.Car, a Args) (tuning.Car, error) {
	if a.Has("name") {
		name, err := tuning.CheckName(a.Text("name"))
		if err != nil {
			return car, err
		}
		car.Name = name
	}
	put(&car.Drive, a, "drive")
	switch {
	case car.Drive == tuning.FourDrive:
	case a.Has("torque-front"):
		return car, tuning.Problemf(tuning.Invalid, "torque-front is for four-wheel drive: leave it out, or say drive:four.")
	default:
		car.TorqueFront = 0
	}
	put(&car.Engine, a, "engine")
	put(&car.Tyre, a, "tyre")
	put(&car.Aero, a, "aero")
	put(&car.Use, a, "use")
	set(&car.Mass, a, "mass")
	set(&car.FrontShare, a, "front-share")
	set(&car.Wheelbase, a, "wheelbase")
	set(&car.CGHeight, a, "cg-height")
	set(&car.TorqueFront, a, "torque-front")
	for axle := range tuning.Axle(tuning.Axles) {
		end, word := &car.Ends[axle], "-"+axle.String()
		set(&end.Track, a, "track"+word)
		set(&end.Spring, a, "spring"+word)
		set(&end.MotionRatio, a, "ratio"+word)
		set(&end.Unsprung, a, "unsprung"+word)
		set(&end.TyreRate, a, "tyre-rate"+word)
		if a.Has("bar" + word) {
			bar := unit.Stiffness(a.Quantity("bar" + word))
			end.Bar = &bar
		}
	}
	return car, car.Validate()
}

// put copies a choice that was given.
func put[T ~string](to *T, a Args, name string) {
	if a.Has(name) {
		*to = T(a.Text(name))
	}
}

// set copies a quantity that was given.
func set[T ~float64](to *T, a Args, name string) {
	if a.Has(name) {
		*to = T(a.Quantity(name))
	}
}

func listCars(ctx context.Context, call Call) (Reply, error) {
	cars, err := call.Book.Cars(ctx, call.owner())
	if err != nil {
		return Reply{}, err
	}
	if len(cars) == 0 {
		return Reply{Title: "No cars yet", Text: "Add one: /car add name:\"Blue hatch\" drive:front engine:front", Actions: []Action{{"Add a car", "/car add"}}}, nil
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
	return Reply{Title: "Your " + say.Count(len(cars), "car", "cars"), Text: strings.Join(lines, "\n")}, nil
}

func showCar(ctx context.Context, call Call) (Reply, error) {
	c, err := call.theCase(ctx)
	if err != nil {
		return Reply{}, err
	}
	reply := Reply{Title: c.Car.Name, Text: sayCar(c.Car, call.imperial()) + "\n" + say.Dampers(c.Car)}
	if c.Car.Fitted() == nil {
		reply.Corners = standing(c.Car, c.Setting)
		reply.Actions = []Action{{"Where do I start", aim("/baseline", c.Car)}, {"What did I change", aim("/log", c.Car)}}
	}
	model, err := figures.Of(c.Car)
	if err != nil {
		reply.Notes = []string{silence(err)}
	} else {
		reply = showFigures(reply, model, c, call.imperial())
	}
	reply.Actions = append(reply.Actions, Action{"Give weights and springs", aim("/car edit", c.Car)})
	return reply, nil
}

func editCar(ctx context.Context, call Call) (Reply, error) {
	car, err := call.theCar(ctx)
	if err != nil {
		return Reply{}, err
	}
	if given := len(call.Args); given == 0 || given == 1 && call.Args.Has("car") {
		return Reply{}, tuning.Problemf(tuning.Invalid, "Say what to change, for example mass:1250kg or tyre:slick; /help car edit lists it all.")
	}
	if car, err = describe(car, call.Args); err != nil {
		return Reply{}, err
	}
	if car, err = call.Book.SaveCar(ctx, car); err != nil {
		return Reply{}, err
	}
	return Reply{Title: car.Name + " is changed", Text: sayCar(car, call.imperial()),
		Actions: []Action{{"Show the car", aim("/car show", car)}}}, nil
}

func mainCar(ctx context.Context, call Call) (Reply, error) {
	car, err := call.theCar(ctx)
	if err != nil {
		return Reply{}, err
	}
	car.Main, car.Retired = true, false // naming a retired car brings it back
	if _, err = call.Book.SaveCar(ctx, car); err != nil {
		return Reply{}, err
	}
	return Reply{Title: car.Name + " is your main car", Text: "It is meant whenever you name no car."}, nil
}

func retireCar(ctx context.Context, call Call) (Reply, error) {
	car, err := call.theCar(ctx)
	if err != nil {
		return Reply{}, err
	}
	car.Retired, car.Main = true, false
	if _, err = call.Book.SaveCar(ctx, car); err != nil {
		return Reply{}, err
	}
	left, err := leaveAll(ctx, call, car)
	if err != nil {
		return Reply{}, err
	}
	return Reply{Title: car.Name + " is retired", Notes: left, Text: "Its record stays; read its log by name, and bring it back with /car main."}, nil
}

// sayCar says all that is known of a car's chassis.
func sayCar(car tuning.Car, imperial bool) string {
	show := func(d unit.Dimension, v float64) string { return unit.Show(d, v, imperial) }
	lines := []string{fmt.Sprintf("%s engine, %s drive, %s tyres, downforce %s, %s.", say.Capital(string(car.Engine)), say.Drive(car.Drive),
		car.Tyre, car.Aero, strings.ReplaceAll(string(car.Use), "-", " "))}
	var whole []string
	add := func(to *[]string, name string, d unit.Dimension, v float64) {
		if v != 0 {
			*to = append(*to, name+" "+show(d, v))
		}
	}
	add(&whole, "mass", unit.OfMass, float64(car.Mass))
	add(&whole, "front share", unit.OfShare, float64(car.FrontShare))
	add(&whole, "wheelbase", unit.OfLength, float64(car.Wheelbase))
	add(&whole, "centre of gravity", unit.OfLength, float64(car.CGHeight))
	add(&whole, "torque at the front", unit.OfShare, float64(car.TorqueFront))
	if len(whole) > 0 {
		lines = append(lines, say.Capital(strings.Join(whole, ", "))+".")
	}
	for axle, end := range car.Ends {
		var parts []string
		add(&parts, "track", unit.OfLength, float64(end.Track))
		add(&parts, "spring", unit.OfStiffness, float64(end.Spring))
		add(&parts, "motion ratio", unit.OfRatio, float64(end.MotionRatio))
		if end.Bar != nil {
			parts = append(parts, "bar "+show(unit.OfStiffness, float64(*end.Bar)))
		}
		add(&parts, "unsprung", unit.OfMass, float64(end.Unsprung))
		add(&parts, "tyre", unit.OfStiffness, float64(end.TyreRate))
		if len(parts) > 0 {
			lines = append(lines, say.Capital(tuning.Axle(axle).String())+": "+strings.Join(parts, ", ")+".")
		}
	}
	return strings.Join(lines, "\n")
}
