package unit

import (
	"reflect"
	"slices"
)

// Dimension is a kind of quantity that a person can type.
type Dimension string

// The dimensions. Each has a row in the table below.
const (
	OfMass        Dimension = "mass"
	OfLength      Dimension = "length"
	OfStiffness   Dimension = "stiffness"
	OfShare       Dimension = "share"
	OfRatio       Dimension = "ratio"
	OfPressure    Dimension = "pressure"
	OfTemperature Dimension = "temperature"
	OfAngle       Dimension = "angle"
)

// dimension is all that is known of one.
type dimension struct {
	of       Dimension
	is       reflect.Type                                         // of its quantity
	units    []scale                                              // as they are typed
	shown    [2]shown                                             // metric and imperial
	example  string                                               // how to type it, both systems
	one      string                                               // how to type it, one value without space
	low      float64                                              // the least in SI; 0 where nothing is below zero
	high     float64                                              // the most in SI
	between  string                                               // the bounds as people say them, "" for bounds that only stop the absurd
	bareRead func(v float64, imperial bool) (si float64, ok bool) // reads a number without a unit where that is more than a unit
}

// scale is one unit of a dimension: its spelling without space and in lower
// case, its size in SI, and its zero in SI.
type scale struct {
	name string
	si   float64
	zero float64
}

func (s scale) toSI(v float64) float64   { return v*s.si + s.zero }
func (s scale) fromSI(v float64) float64 { return (v - s.zero) / s.si }

// shown is the unit that a system prints and takes a bare number for.
type shown struct {
	scale
	print    string // with the space before it, which the sign of a degree goes without
	decimals int    // at most
}

// Exact by definition: the pound, the inch, standard gravity in the
// kilogram-force, the bar, the zero of the Celsius scale and the degree
// Fahrenheit (NIST SP 811, appendix B, from memory).
const (
	pound      = 0.45359237
	inch       = 0.0254
	kgf        = 9.80665
	lbf        = pound * kgf
	psi        = lbf / (inch * inch)
	bar        = 1e5
	celsius    = 273.15
	fahrenheit = celsius - 32*5.0/9
)

// absurd is where a value is too large for anything.
const absurd = 1e15

// dimensions is the one table of what people may type and read.
var dimensions = []dimension{
	{of: OfMass, is: reflect.TypeFor[Mass](),
		units:   []scale{{"kg", 1, 0}, {"kgs", 1, 0}, {"t", 1000, 0}, {"lb", pound, 0}, {"lbs", pound, 0}},
		shown:   [2]shown{{scale{"kg", 1, 0}, " kg", 0}, {scale{"lb", pound, 0}, " lb", 0}},
		example: "1250kg or 2750lb", one: "1250kg", high: absurd},
	{of: OfLength, is: reflect.TypeFor[Length](),
		units:   []scale{{"m", 1, 0}, {"mm", 1e-3, 0}, {"cm", 1e-2, 0}, {"in", inch, 0}, {"ft", 12 * inch, 0}, {`"`, inch, 0}},
		shown:   [2]shown{{scale{"m", 1, 0}, " m", 3}, {scale{"in", inch, 0}, " in", 1}},
		example: "2.55m, 2550mm or 100in", one: "2.55m", high: absurd, bareRead: bareLength},
	{of: OfStiffness, is: reflect.TypeFor[Stiffness](),
		units: []scale{{"n/mm", 1e3, 0}, {"n/m", 1, 0}, {"kn/m", 1e3, 0}, {"kg/mm", kgf * 1e3, 0}, {"kgf/mm", kgf * 1e3, 0},
			{"lb/in", lbf / inch, 0}, {"lbs/in", lbf / inch, 0}, {"lbf/in", lbf / inch, 0}},
		shown:   [2]shown{{scale{"n/mm", 1e3, 0}, " N/mm", 1}, {scale{"lb/in", lbf / inch, 0}, " lb/in", 0}},
		example: "70N/mm or 400lb/in", one: "70N/mm", high: absurd},
	{of: OfShare, is: reflect.TypeFor[Share](),
		units:   []scale{{"%", 1e-2, 0}},
		shown:   [2]shown{{scale{"%", 1e-2, 0}, " %", 1}, {scale{"%", 1e-2, 0}, " %", 1}},
		example: "54%", one: "54%", high: absurd, bareRead: bareShare},
	{of: OfRatio, is: reflect.TypeFor[Ratio](),
		shown:   [2]shown{{scale{"", 1, 0}, "", 3}, {scale{"", 1, 0}, "", 3}},
		example: "0.95", one: "0.95", high: absurd},
	{of: OfPressure, is: reflect.TypeFor[Pressure](), // of a tyre; the bounds, from memory, catch wrong units; 0.2 bar prints as 2.9 psi
		units:   []scale{{"bar", bar, 0}, {"kpa", 1e3, 0}, {"psi", psi, 0}},
		shown:   [2]shown{{scale{"bar", bar, 0}, " bar", 2}, {scale{"psi", psi, 0}, " psi", 1}},
		example: "2.1bar, 210kPa or 30psi", one: "2.1bar", low: 2.9 * psi, high: 6 * bar, between: "0.2 and 6 bar (3 and 87 psi)", bareRead: barePressure},
	{of: OfTemperature, is: reflect.TypeFor[Temperature](), // of air, track and tyre; the bounds, from memory, catch slips of the thumb
		units:   []scale{{"°c", 1, celsius}, {"c", 1, celsius}, {"°f", 5.0 / 9, fahrenheit}, {"f", 5.0 / 9, fahrenheit}},
		shown:   [2]shown{{scale{"°c", 1, celsius}, " °C", 1}, {scale{"°f", 5.0 / 9, fahrenheit}, " °F", 0}},
		example: "24°C or 75°F", one: "24°C", low: celsius - 40, high: celsius + 200, between: "-40 and 200 °C (-40 and 392 °F)"},
	{of: OfAngle, is: reflect.TypeFor[Angle](),
		units:   []scale{{"°", Degree, 0}, {"deg", Degree, 0}, {"degree", Degree, 0}, {"degrees", Degree, 0}},
		shown:   [2]shown{{scale{"°", Degree, 0}, "°", 1}, {scale{"°", Degree, 0}, "°", 1}},
		example: "6.5° or 6.5deg", one: "6.5°", low: -90 * Degree, high: 90 * Degree, between: "-90 and 90°"},
}

// dimensionOf finds the row of a dimension; ok is false for an unknown one.
func dimensionOf(d Dimension) (row dimension, ok bool) {
	for _, row := range dimensions {
		if row.of == d {
			return row, true
		}
	}
	return dimension{of: d}, false
}

// Example is one value of the dimension as it can be typed, without space.
func Example(d Dimension) string {
	row, _ := dimensionOf(d)
	return row.one
}

// DimensionOf finds the dimension of a quantity's type, such as Mass.
func DimensionOf(quantity reflect.Type) (d Dimension, ok bool) {
	for _, row := range dimensions {
		if row.is == quantity {
			return row.of, true
		}
	}
	return "", false
}

// system is the index of a system of units in shown.
func system(imperial bool) int {
	if imperial {
		return 1
	}
	return 0
}

// bareLength reads a length without a unit. Metric lengths of a car are a few
// metres or some hundred millimetres, and what lies between is asked about.
func bareLength(v float64, imperial bool) (float64, bool) {
	switch {
	case imperial:
		return v * inch, true
	case v < 10:
		return v, true
	}
	return v / 1000, v >= 100
}

// bareShare reads a share without a sign: 54 and 0.54 are the same.
func bareShare(v float64, _ bool) (float64, bool) {
	if v > 1 {
		return v / 100, true
	}
	return v, true
}

// barePressure reads a pressure without a unit. Metric pressures of a tyre are
// a few bar or some hundred kilopascals, and what lies between may be psi and is
// asked about.
func barePressure(v float64, imperial bool) (float64, bool) {
	switch {
	case imperial:
		return v * psi, true
	case v < 10:
		return v * bar, true
	}
	return v * 1e3, v >= 100
}

// DimensionHas tells whether people may type a unit for the dimension. The word
// is in lower case.
func DimensionHas(d Dimension, word string) bool {
	row, _ := dimensionOf(d)
	return slices.ContainsFunc(row.units, func(s scale) bool { return s.name == word })
}
