package figures

import (
	"math"

	"detent/tuning"
	"detent/tuning/unit"
)

// figure is a figure of the car that is assumed where it is not told.
type figure struct {
	name   string // as people say it, without the end of the car
	option string // of /car edit
	end    string // "front", "rear", or "" for the whole car
	of     unit.Dimension
	spread float64 // how far off an ordinary car may be, as a part; from memory
	body   bool    // only answers about the whole car rest on it
	value  func(*tuning.Car) (v float64, known bool)
	set    func(*tuning.Car, float64)
	assume func(tuning.Car) float64 // of a car whose figures before this one are filled
}

// everyFigure lists the figures in the order they are filled in, since an assumed
// spring depends on those before it.
var everyFigure = append(wholeFigures(), append(endFigures(tuning.Front), endFigures(tuning.Rear)...)...)

func wholeFigures() []figure {
	return []figure{
		assumed("mass", figure{name: "mass", spread: 0.15},
			func(c tuning.Car) unit.Mass { return layoutOf(c).mass * unit.Mass(classOf(c).mass) }),
		assumed("front-share", figure{name: "front share", spread: 0.08},
			func(c tuning.Car) unit.Share { return layoutOf(c).frontShare }),
		assumed("wheelbase", figure{name: "wheelbase", spread: 0.05, body: true},
			func(c tuning.Car) unit.Length { return layoutOf(c).wheelbase }),
		assumed("cg-height", figure{name: "centre of gravity", spread: 0.10, body: true},
			func(c tuning.Car) unit.Length { return layoutOf(c).cgHeight }),
	}
}

func endFigures(axle tuning.Axle) []figure {
	end := "-" + axle.String()
	return []figure{
		assumed("track"+end, figure{name: "track", spread: 0.04, body: true},
			func(c tuning.Car) unit.Length { return layoutOf(c).track[axle] }),
		assumed("ratio"+end, figure{name: "motion ratio", spread: 0.15},
			func(c tuning.Car) unit.Ratio { return layoutOf(c).ratio[axle] }),
		assumed("unsprung"+end, figure{name: "unsprung mass of a corner", spread: 0.25},
			func(c tuning.Car) unit.Mass { return c.Mass * unsprungPart }),
		assumed("tyre-rate"+end, figure{name: "tyre rate", spread: 0.20},
			func(c tuning.Car) unit.Stiffness { return classOf(c).tyreRate }),
		assumed("spring"+end, figure{name: "spring", spread: 0.50},
			func(c tuning.Car) unit.Stiffness { return ordinarySpring(c, axle) }),
		assumed("bar"+end, figure{name: "anti-roll bar", spread: 0.60, body: true},
			func(c tuning.Car) unit.Stiffness { return layoutOf(c).bar[axle] }),
	}
}

// assumed completes what is assumed of a figure with what tuning declares of it.
// It panics where tuning has no figure of that name, since that is a mistake in
// the table above.
func assumed[T ~float64](name string, f figure, assume func(tuning.Car) T) figure {
	of, ok := tuning.FigureNamed(name)
	if !ok {
		panic("there is no figure " + name)
	}
	f.option, f.of = of.Name, of.Of
	if of.Part != tuning.WholeCar {
		f.end = string(of.Part)
	}
	f.value = func(c *tuning.Car) (float64, bool) { return of.Get(*c) }
	f.set = of.Set
	f.assume = func(c tuning.Car) float64 { return float64(assume(c)) }
	return f
}

// ordinarySpring is the spring that gives the body the frequency of the car's
// class, k_s = (2πf)²·m_s/MR².
func ordinarySpring(car tuning.Car, axle tuning.Axle) unit.Stiffness {
	share := car.FrontShare
	if axle == tuning.Rear {
		share = 1 - share
	}
	sprung := float64(car.Mass)*float64(share)/2 - float64(car.Ends[axle].Unsprung)
	turns := 2 * math.Pi * float64(classOf(car).frequency[axle]) / float64(car.Ends[axle].MotionRatio)
	return unit.Stiffness(turns * turns * sprung)
}

// fill puts an assumed figure into every gap of a car and returns which.
func fill(car *tuning.Car) []figure {
	var assumed []figure
	for _, f := range everyFigure {
		if _, known := f.value(car); !known {
			f.set(car, f.assume(*car))
			assumed = append(assumed, f)
		}
	}
	return assumed
}
