package figures

import (
	"math"
	"strings"

	"detent/tuning"
	"detent/tuning/unit"
)

// figure is one thing that a member can tell of a car and that is assumed where
// it is not told.
type figure struct {
	name   string // as it is said, without the end of the car
	end    string // "front", "rear", or "" for the whole car
	option string // of /car edit
	of     unit.Dimension
	spread float64 // how far off an ordinary car may be, as a part; from memory
	body   bool    // only answers about the whole car rest on it
	value  func(*tuning.Car) (v float64, known bool)
	set    func(*tuning.Car, float64)
	assume func(tuning.Car) float64 // of a car whose figures before this one are filled
}

// told declares a figure that is unknown while it is zero.
func told[T ~float64](name, end string, of unit.Dimension, spread float64, body bool, at func(*tuning.Car) *T, assume func(tuning.Car) T) figure {
	return figure{
		name: name, end: end, of: of, spread: spread, body: body,
		option: strings.TrimSuffix(optionNames[name]+"-"+end, "-"),
		value:  func(c *tuning.Car) (float64, bool) { v := float64(*at(c)); return v, v != 0 },
		set:    func(c *tuning.Car, v float64) { *at(c) = T(v) },
		assume: func(c tuning.Car) float64 { return float64(assume(c)) },
	}
}

var optionNames = map[string]string{
	"mass": "mass", "front share": "front-share", "wheelbase": "wheelbase", "centre of gravity": "cg-height", "track": "track",
	"motion ratio": "ratio", "unsprung mass of a corner": "unsprung", "tyre rate": "tyre-rate", "spring": "spring", "anti-roll bar": "bar",
}

// bar declares the anti-roll bar of an axle, where zero means that it has none.
func bar(axle tuning.Axle) figure {
	f := told("anti-roll bar", axle.String(), unit.OfStiffness, 0.6, true, nil,
		func(c tuning.Car) unit.Stiffness { return layoutOf(c).bar[axle] })
	f.value = func(c *tuning.Car) (float64, bool) {
		if b := c.Ends[axle].Bar; b != nil {
			return float64(*b), true
		}
		return 0, false
	}
	f.set = func(c *tuning.Car, v float64) {
		b := unit.Stiffness(v)
		c.Ends[axle].Bar = &b
	}
	return f
}

// known lists the figures in the order they are filled in: a spring leans on
// those before it.
var known = append(wholeFigures(), append(endFigures(tuning.Front), endFigures(tuning.Rear)...)...)

func wholeFigures() []figure {
	return []figure{
		told("mass", "", unit.OfMass, 0.15, false,
			func(c *tuning.Car) *unit.Mass { return &c.Mass },
			func(c tuning.Car) unit.Mass { return layoutOf(c).mass * unit.Mass(classOf(c).mass) }),
		told("front share", "", unit.OfShare, 0.08, false,
			func(c *tuning.Car) *unit.Share { return &c.FrontShare },
			func(c tuning.Car) unit.Share { return layoutOf(c).frontShare }),
		told("wheelbase", "", unit.OfLength, 0.05, true,
			func(c *tuning.Car) *unit.Length { return &c.Wheelbase },
			func(c tuning.Car) unit.Length { return layoutOf(c).wheelbase }),
		told("centre of gravity", "", unit.OfLength, 0.10, true,
			func(c *tuning.Car) *unit.Length { return &c.CGHeight },
			func(c tuning.Car) unit.Length { return layoutOf(c).cgHeight }),
	}
}

func endFigures(axle tuning.Axle) []figure {
	end := axle.String()
	return []figure{
		told("track", end, unit.OfLength, 0.04, true,
			func(c *tuning.Car) *unit.Length { return &c.Ends[axle].Track },
			func(c tuning.Car) unit.Length { return layoutOf(c).track[axle] }),
		told("motion ratio", end, unit.OfRatio, 0.15, false,
			func(c *tuning.Car) *unit.Ratio { return &c.Ends[axle].MotionRatio },
			func(c tuning.Car) unit.Ratio { return layoutOf(c).ratio[axle] }),
		told("unsprung mass of a corner", end, unit.OfMass, 0.25, false,
			func(c *tuning.Car) *unit.Mass { return &c.Ends[axle].Unsprung },
			func(c tuning.Car) unit.Mass { return c.Mass * unsprungPart }),
		told("tyre rate", end, unit.OfStiffness, 0.20, false,
			func(c *tuning.Car) *unit.Stiffness { return &c.Ends[axle].TyreRate },
			func(c tuning.Car) unit.Stiffness { return classOf(c).tyreRate }),
		told("spring", end, unit.OfStiffness, 0.50, false,
			func(c *tuning.Car) *unit.Stiffness { return &c.Ends[axle].Spring },
			func(c tuning.Car) unit.Stiffness { return ordinarySpring(c, axle) }),
		bar(axle),
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
	for _, f := range known {
		if _, told := f.value(car); !told {
			f.set(car, f.assume(*car))
			assumed = append(assumed, f)
		}
	}
	return assumed
}
