package garage

import (
	"detent/bot"
	"detent/tuning"
	"detent/tuning/unit"
)

// carFigure is a quantity that may be said of a car.
type carFigure struct {
	bot.Option
	set func(car *tuning.Car, si float64)
}

// carFigures are the quantities that may be said of a car, in the order shown.
var carFigures = []carFigure{
	measure("mass", "mass of the car with driver", unit.OfMass, func(c *tuning.Car, v float64) { c.Mass = unit.Mass(v) }),
	measure("front-share", "share of the weight on the front axle", unit.OfShare, func(c *tuning.Car, v float64) { c.FrontShare = unit.Share(v) }),
	measure("wheelbase", "wheelbase", unit.OfLength, func(c *tuning.Car, v float64) { c.Wheelbase = unit.Length(v) }),
	atEnd(tuning.Front, measure("track-front", "front track", unit.OfLength, nil), setTrack),
	atEnd(tuning.Rear, measure("track-rear", "rear track", unit.OfLength, nil), setTrack),
	measure("cg-height", "height of the centre of gravity", unit.OfLength, func(c *tuning.Car, v float64) { c.CGHeight = unit.Length(v) }),
	atEnd(tuning.Front, measure("spring-front", "rate of one front spring", unit.OfStiffness, nil), setSpring),
	atEnd(tuning.Rear, measure("spring-rear", "rate of one rear spring", unit.OfStiffness, nil), setSpring),
	atEnd(tuning.Front, measure("ratio-front", "front motion ratio: spring travel over wheel travel", unit.OfRatio, nil), setMotionRatio),
	atEnd(tuning.Rear, measure("ratio-rear", "rear motion ratio: spring travel over wheel travel", unit.OfRatio, nil), setMotionRatio),
	zeroable(atEnd(tuning.Front, measure("bar-front", "front anti-roll bar: wheel force per wheel travel difference", unit.OfStiffness, nil), setBar)),
	zeroable(atEnd(tuning.Rear, measure("bar-rear", "rear anti-roll bar: wheel force per wheel travel difference", unit.OfStiffness, nil), setBar)),
	atEnd(tuning.Front, measure("unsprung-front", "unsprung mass of one front corner", unit.OfMass, nil), setUnsprung),
	atEnd(tuning.Rear, measure("unsprung-rear", "unsprung mass of one rear corner", unit.OfMass, nil), setUnsprung),
	atEnd(tuning.Front, measure("tyre-rate-front", "vertical rate of one front tyre", unit.OfStiffness, nil), setTyreRate),
	atEnd(tuning.Rear, measure("tyre-rate-rear", "vertical rate of one rear tyre", unit.OfStiffness, nil), setTyreRate),
}

func setTrack(e *tuning.End, v float64)       { e.Track = unit.Length(v) }
func setSpring(e *tuning.End, v float64)      { e.Spring = unit.Stiffness(v) }
func setMotionRatio(e *tuning.End, v float64) { e.MotionRatio = unit.Ratio(v) }
func setUnsprung(e *tuning.End, v float64)    { e.Unsprung = unit.Mass(v) }
func setTyreRate(e *tuning.End, v float64)    { e.TyreRate = unit.Stiffness(v) }
func setBar(e *tuning.End, v float64)         { bar := unit.Stiffness(v); e.Bar = &bar }

// measure declares a figure of the whole car.
func measure(name, help string, of unit.Dimension, set func(*tuning.Car, float64)) carFigure {
	return carFigure{bot.Option{Name: name, Help: help, Kind: bot.Quantity, Of: of}, set}
}

// atEnd makes a figure one of an axle.
func atEnd(axle tuning.Axle, f carFigure, set func(*tuning.End, float64)) carFigure {
	f.set = func(car *tuning.Car, si float64) { set(&car.Ends[axle], si) }
	return f
}

// zeroable makes zero a value of a figure.
func zeroable(f carFigure) carFigure { f.Zero = true; return f }

// givenFigures are the figures that a line gives, by option, in SI units.
type givenFigures map[string]float64

// Options lists the figures.
func (givenFigures) Options() []bot.Option {
	options := make([]bot.Option, len(carFigures))
	for i, f := range carFigures {
		options[i] = f.Option
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

// onto puts the figures onto a car.
func (g givenFigures) onto(car *tuning.Car) {
	for _, f := range carFigures {
		if si, ok := g[f.Name]; ok {
			f.set(car, si)
		}
	}
}
