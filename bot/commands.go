package bot

import (
	"cmp"

	"detent/tuning"
	"detent/tuning/unit"
)

// Commands lists every line that can be asked, in the order /help shows them.
func Commands() []Command {
	var all []Command
	for _, of := range [][]Command{
		carCommands(), damperCommands(), baselineCommands(), symptomCommands(), applyCommands(), whyCommands(),
		clicksCommands(), undoCommands(), logCommands(), feelCommands(), sweepCommands(), windowCommands(),
		eventCommands(), guideCommands(), coachCommands(), weekCommands(), clubCommands(), meCommands(), privacyCommands(), helpCommands(),
	} {
		all = append(all, of...)
	}
	return all
}

// The options that several commands share.
var (
	carOption = Option{Name: "car", Help: "the car, when it is not the main one", Source: FromCars}

	weatherOption = Option{Name: "weather", Help: "the weather, when it is not the event's, or not dry", Kind: Choice,
		Choices: []string{string(tuning.Dry), string(tuning.Wet)}}

	axleWords = []string{"front", "rear"}
	yesNo     = []string{"yes", "no"}
)

// weather is the weather said, otherwise that of the event the car is at.
func (c Call) weather(k tuning.Case) tuning.Weather {
	return cmp.Or(tuning.Weather(c.Args.Text("weather")), k.Event.Weather, tuning.Dry)
}

// surface is the surface said, otherwise that of the event the car is at.
func (c Call) surface(k tuning.Case) tuning.Surface {
	return cmp.Or(tuning.Surface(c.Args.Text("surface")), k.Event.Surface, tuning.Smooth)
}

// measure declares a quantity with a unit.
func measure(name, help string, of unit.Dimension) Option {
	return Option{Name: name, Help: help, Kind: Quantity, Of: of}
}

// axleOf reads an axle option, nil when not given.
func axleOf(a Args) *tuning.Axle {
	axle := tuning.Front
	switch a.Text("axle") {
	case "front":
	case "rear":
		axle = tuning.Rear
	default:
		return nil
	}
	return &axle
}
