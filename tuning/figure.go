package tuning

import (
	"fmt"
	"slices"

	"detent/tuning/unit"
)

// Figure is one quantity that a member can tell of a car. All that is true of
// every figure is declared once, in Figures.
type Figure struct {
	Name  string // as it is typed and kept: "cg-height", "track-front"
	Base  string // the name without the end of the car: "cg-height", "track"
	Part  Part   // the end it belongs to, or WholeCar
	Of    unit.Dimension
	Low   float64 // bounds in SI, wide and from memory: they catch slips of the thumb and wrong units
	High  float64
	Usual float64 // an ordinary value in SI, for examples
	Zero  bool    // zero is a value; otherwise it means unknown
	Only  Drive   // the drive of the cars that have it, "" for every car

	get    func(*Car) (si float64, known bool)
	set    func(*Car, float64)
	forget func(*Car)
}

// End is what is known of the chassis at one axle. A zero quantity is unknown.
type End struct {
	Track       unit.Length
	Spring      unit.Stiffness  // one spring
	MotionRatio unit.Ratio      // spring travel over wheel travel
	Bar         *unit.Stiffness // anti-roll bar, wheel force over wheel travel difference; nil unknown, 0 none
	Unsprung    unit.Mass       // one corner
	TyreRate    unit.Stiffness  // one tyre, vertical
}

// Figures lists every figure in the order it is offered and shown.
var Figures = slices.Concat(
	ofWholeCar("mass", unit.OfMass, 200, 4000, 1250, func(c *Car) *unit.Mass { return &c.Mass }),
	ofWholeCar("front-share", unit.OfShare, 0.2, 0.8, 0.54, func(c *Car) *unit.Share { return &c.FrontShare }),
	ofWholeCar("wheelbase", unit.OfLength, 1.2, 4.5, 2.55, func(c *Car) *unit.Length { return &c.Wheelbase }),
	ofBothEnds("track", unit.OfLength, 0.8, 2.2, 1.48, func(e *End) *unit.Length { return &e.Track }),
	ofWholeCar("cg-height", unit.OfLength, 0.15, 1.2, 0.48, func(c *Car) *unit.Length { return &c.CGHeight }),
	ofBothEnds("spring", unit.OfStiffness, 5e3, 1e6, 70e3, func(e *End) *unit.Stiffness { return &e.Spring }),
	ofBothEnds("ratio", unit.OfRatio, 0.2, 2, 0.95, func(e *End) *unit.Ratio { return &e.MotionRatio }),
	ofBothEndsOrZero("bar", unit.OfStiffness, 0, 1e6, 20e3, func(e *End) **unit.Stiffness { return &e.Bar }),
	ofBothEnds("unsprung", unit.OfMass, 5, 150, 36, func(e *End) *unit.Mass { return &e.Unsprung }),
	ofBothEnds("tyre-rate", unit.OfStiffness, 5e4, 1e6, 210e3, func(e *End) *unit.Stiffness { return &e.TyreRate }),
	onlyWith(FourDrive, ofWholeCar("torque-front", unit.OfShare, 0, 1, 0.40, func(c *Car) *unit.Share { return &c.TorqueFront })),
)

// FigureNamed finds a figure by its name.
func FigureNamed(name string) (f Figure, ok bool) {
	i := slices.IndexFunc(Figures, func(f Figure) bool { return f.Name == name })
	if i < 0 {
		return Figure{}, false
	}
	return Figures[i], true
}

// Get returns the figure of a car in SI units; known is false while it has not
// been told.
func (f Figure) Get(c Car) (si float64, known bool) { return f.get(&c) }

// Set tells the figure of a car, in SI units.
func (f Figure) Set(c *Car, si float64) { f.set(c, si) }

// Forget makes the figure of a car unknown.
func (f Figure) Forget(c *Car) { f.forget(c) }

// OutOfBounds is a figure that no car could have, NaN included.
type OutOfBounds struct {
	Figure Figure
	Value  float64 // SI
}

func (o OutOfBounds) Error() string { return fmt.Sprintf("%s is %g", o.Figure.Name, o.Value) }

// Refuses returns Invalid.
func (OutOfBounds) Refuses() Kind { return Invalid }

// check returns OutOfBounds for a figure that no car could have, NaN included.
func (f Figure) check(c Car) error {
	v, known := f.Get(c)
	if !known || v >= f.Low && v <= f.High {
		return nil
	}
	return OutOfBounds{f, v}
}

// ofWholeCar is a figure of the whole car, unknown while it is zero.
func ofWholeCar[T ~float64](name string, of unit.Dimension, low, high, usual float64, at func(*Car) *T) []Figure {
	return []Figure{{Name: name, Base: name, Part: WholeCar, Of: of, Low: low, High: high, Usual: usual,
		get:    func(c *Car) (float64, bool) { v := float64(*at(c)); return v, v != 0 },
		set:    func(c *Car, si float64) { *at(c) = T(si) },
		forget: func(c *Car) { *at(c) = 0 },
	}}
}

// ofBothEnds is a figure of each axle, unknown while it is zero.
func ofBothEnds[T ~float64](base string, of unit.Dimension, low, high, usual float64, at func(*End) *T) []Figure {
	var pair []Figure
	for axle := range Axle(Axles) {
		f := ofWholeCar(base, of, low, high, usual, func(c *Car) *T { return at(&c.Ends[axle]) })[0]
		f.Name, f.Part = base+"-"+axle.String(), PartOf(axle)
		pair = append(pair, f)
	}
	return pair
}

// ofBothEndsOrZero is a figure of each axle that may be zero; nil is unknown.
func ofBothEndsOrZero[T ~float64](base string, of unit.Dimension, low, high, usual float64, at func(*End) **T) []Figure {
	var pair []Figure
	for axle := range Axle(Axles) {
		pair = append(pair, Figure{Name: base + "-" + axle.String(), Base: base, Part: PartOf(axle), Of: of, Low: low, High: high, Usual: usual, Zero: true,
			get: func(c *Car) (float64, bool) {
				if v := *at(&c.Ends[axle]); v != nil {
					return float64(*v), true
				}
				return 0, false
			},
			set:    func(c *Car, si float64) { v := T(si); *at(&c.Ends[axle]) = &v },
			forget: func(c *Car) { *at(&c.Ends[axle]) = nil },
		})
	}
	return pair
}

// onlyWith limits figures to cars of one drive.
func onlyWith(drive Drive, figures []Figure) []Figure {
	for i := range figures {
		figures[i].Only = drive
	}
	return figures
}
