package garage

import (
	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
)

// givenFigures are the figures that a line gives, by name, in SI units.
type givenFigures map[string]float64

// Options lists the figures that may be said of a car.
func (givenFigures) Options() []bot.Option {
	options := make([]bot.Option, len(tuning.Figures))
	for i, f := range tuning.Figures {
		options[i] = bot.Option{Name: f.Name, Help: say.FigureHelp(f), Kind: bot.Quantity, Of: f.Of, Zero: f.Zero}
	}
	return options
}

// Give takes a figure.
func (g *givenFigures) Give(option string, value any) {
	if *g == nil {
		*g = givenFigures{}
	}
	(*g)[option] = value.(float64)
}

// onto puts the figures onto a car whose drive is settled. Those of another
// drive are forgotten, and refused when the line gives one.
func (g givenFigures) onto(car *tuning.Car) error {
	for _, f := range tuning.Figures {
		si, given := g[f.Name]
		switch {
		case f.Only != "" && f.Only != car.Drive && given:
			return bot.Problemf(tuning.Invalid, "%s is for %s drive: leave it out, or say drive:%s.", f.Name, say.Drive(f.Only), f.Only)
		case f.Only != "" && f.Only != car.Drive:
			f.Forget(car)
		case given:
			f.Set(car, si)
		}
	}
	return nil
}
