package figures

import (
	"math"

	"detent/tuning"
	"detent/tuning/unit"
)

// figure is one thing that a member can tell of a car and that is assumed where
// it is not told.
type figure struct {
	name   string // as it is said, without the end of the car
	option string // of /car edit
	end    string // "front", "rear", or "" for the whole car
	of     unit.Dimension
	spread float64 // how far off an ordinary car may be, as a part; from memory
	body   bool    // only answers about the whole car rest on it
	value  func(*tuning.Car) (v float64, known bool)
	set    func(*tuning.Car, float64)
	assume func(tuning.Car) float64 // of a car whose figures before this one are filled
}

// told completes a figure that is unknown while it is zero.
func told[T ~float64](f figure, at func(*tuning.Car) *T, assume func(tuning.Car) T) figure {
	f.value = func(c *tuning.Car) (float64, bool) { v := float64(*at(c)); return v, v != 0 }
	f.set = func(c *tuning.Car, v float64) { *at(c) = T(v) }
	f.assume = func(c tuning.Car) float64 { return float64(assume(c)) }
	return f
}

// everyFigure lists the figures in the order they are filled in: a spring leans on
// those before it.
var everyFigure = append(wholeFigures(), append(endFigures(tuning.Front), endFigures(tuning.Rear)...)...)

func wholeFigures() []figure {
	return []figure{
		told(figure{name: "mass", option: "mass", of: unit.OfMass, spread: 0.15},
			func(c *tuning.Car) *unit.Mass { return &c.Mass },
			func(c tuning.Car) unit.Mass { return layoutOf(c).mass * unit.Mass(classOf(c).mass) }),
		told(figure{name: "front share", option: "front-share", of: unit.OfShare, spread: 0.08},
			func(c *tuning.Car) *unit.Share { return &c.FrontShare },
			func(c tuning.Car) unit.Share { return layoutOf(c).frontShare }),
		told(figure{name: "wheelbase", option: "wheelbase", of: unit.OfLength, spread: 0.05, body: true},
			func(c *tuning.Car) *unit.Length { return &c.Wheelbase },
			func(c tuning.Car) unit.Length { return layoutOf(c).wheelbase }),
		told(figure{name: "centre of gravity", option: "cg-height", of: unit.OfLength, spread: 0.10, body: true},
			func(c *tuning.Car) *unit.Length { return &c.CGHeight },
			func(c tuning.Car) unit.Length { return layoutOf(c).cgHeight }),
	}
}

func endFigures(axle tuning.Axle) []figure {
	end := axle.String()
	return []figure{
		told(figure{name: "track", option: "track-" + end, end: end, of: unit.OfLength, spread: 0.04, body: true},
			func(c *tuning.Car) *unit.Length { return &c.Ends[axle].Track },
			func(c tuning.Car) unit.Length { return layoutOf(c).track[axle] }),
		told(figure{name: "motion ratio", option: "ratio-" + end, end: end, of: unit.OfRatio, spread: 0.15},
			func(c *tuning.Car) *unit.Ratio { return &c.Ends[axle].MotionRatio },
			func(c tuning.Car) unit.Ratio { return layoutOf(c).ratio[axle] }),
		told(figure{name: "unsprung mass of a corner", option: "unsprung-" + end, end: end, of: unit.OfMass, spread: 0.25},
			func(c *tuning.Car) *unit.Mass { return &c.Ends[axle].Unsprung },
			func(c tuning.Car) unit.Mass { return c.Mass * unsprungPart }),
		told(figure{name: "tyre rate", option: "tyre-rate-" + end, end: end, of: unit.OfStiffness, spread: 0.20},
			func(c *tuning.Car) *unit.Stiffness { return &c.Ends[axle].TyreRate },
			func(c tuning.Car) unit.Stiffness { return classOf(c).tyreRate }),
		told(figure{name: "spring", option: "spring-" + end, end: end, of: unit.OfStiffness, spread: 0.50},
			func(c *tuning.Car) *unit.Stiffness { return &c.Ends[axle].Spring },
			func(c tuning.Car) unit.Stiffness { return ordinarySpring(c, axle) }),
		barOf(axle),
	}
}

// barOf is the anti-roll bar of an axle, where zero means that it has none.
func barOf(axle tuning.Axle) figure {
	return figure{
		name: "anti-roll bar", option: "bar-" + axle.String(), end: axle.String(), of: unit.OfStiffness, spread: 0.60, body: true,
		value: func(c *tuning.Car) (float64, bool) {
			if bar := c.Ends[axle].Bar; bar != nil {
				return float64(*bar), true
			}
			return 0, false
		},
		set: func(c *tuning.Car, v float64) {
			bar := unit.Stiffness(v)
			c.Ends[axle].Bar = &bar
		},
		assume: func(c tuning.Car) float64 { return float64(layoutOf(c).bar[axle]) },
	}
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
