package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Dimension is a kind of quantity that a person can type.
type Dimension string

// The dimensions.
const (
	OfMass      Dimension = "mass"
	OfLength    Dimension = "length"
	OfStiffness Dimension = "stiffness"
	OfShare     Dimension = "share"
	OfRatio     Dimension = "ratio"
)

// scale is one unit of a dimension: its spelling, and its size in SI.
type scale struct {
	name string
	si   float64
}

// Exact by definition: the pound, the inch, standard gravity in the
// kilogram-force (NIST SP 811, appendix B, from memory).
const (
	pound = 0.45359237
	inch  = 0.0254
	kgf   = 9.80665
	lbf   = pound * kgf
)

// scales lists the units of each dimension as they are typed, without space
// and in lower case.
var scales = map[Dimension][]scale{
	OfMass:      {{"kg", 1}, {"lb", pound}, {"lbs", pound}},
	OfLength:    {{"m", 1}, {"mm", 1e-3}, {"cm", 1e-2}, {"in", inch}, {"ft", 12 * inch}, {`"`, inch}},
	OfStiffness: {{"n/mm", 1e3}, {"n/m", 1}, {"kn/m", 1e3}, {"kg/mm", kgf * 1e3}, {"kgf/mm", kgf * 1e3}, {"lb/in", lbf / inch}, {"lbs/in", lbf / inch}, {"lbf/in", lbf / inch}},
	OfShare:     {{"%", 1e-2}},
	OfRatio:     {},
}

// bare is the unit of a number without one, metric and imperial. Lengths are
// told apart by size instead, see bareLength.
var bare = map[Dimension][2]scale{
	OfMass:      {{"kg", 1}, {"lb", pound}},
	OfStiffness: {{"N/mm", 1e3}, {"lb/in", lbf / inch}},
	OfRatio:     {{"", 1}, {"", 1}},
}

// examples show the person how to type each dimension.
var examples = map[Dimension]string{
	OfMass: "1250kg or 2750lb", OfLength: "2.55m, 2550mm or 100in", OfStiffness: "70N/mm or 400lb/in",
	OfShare: "54%", OfRatio: "0.95",
}

// Read turns what a person typed into the SI value of a dimension. A number
// without a unit is read in metric or imperial units. The error is one
// sentence that says what to type. Negative, infinite and not-a-number values
// are refused; zero is left to the caller.
func Read(d Dimension, text string, imperial bool) (float64, error) {
	v, err := read(d, text, imperial)
	if err == nil && math.IsInf(v, 0) {
		return 0, fmt.Errorf("%q is too large: type it like %s", text, examples[d])
	}
	return v, err
}

func read(d Dimension, text string, imperial bool) (float64, error) {
	text = strings.ToLower(strings.ReplaceAll(strings.TrimSpace(text), " ", ""))
	if strings.Contains(text, ",") {
		return 0, fmt.Errorf("%q has a comma: write a point for decimals and nothing between thousands, like %s", text, examples[d])
	}
	number, suffix := split(text)
	v, err := strconv.ParseFloat(number, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%q is not a number I can use: type it like %s", text, examples[d])
	}
	if v < 0 {
		return 0, fmt.Errorf("a negative %s cannot be: type it like %s", d, examples[d])
	}
	if suffix == "" {
		return readBare(d, v, imperial)
	}
	for _, s := range scales[d] {
		if s.name == suffix {
			return v * s.si, nil
		}
	}
	return 0, fmt.Errorf("%q is not a unit of %s I know: type it like %s", suffix, d, examples[d])
}

// split parts the number from the unit behind it.
func split(text string) (number, suffix string) {
	end := 0
	for i := range len(text) {
		switch c := text[i]; {
		case c >= '0' && c <= '9', c == '.', (c == '-' || c == '+') && (i == 0 || text[i-1] == 'e'):
			end = i + 1
		case c == 'e' && i > 0 && i+1 < len(text) && strings.IndexByte("0123456789+-", text[i+1]) >= 0:
		default:
			return text[:end], text[end:]
		}
	}
	return text[:end], text[end:]
}

func readBare(d Dimension, v float64, imperial bool) (float64, error) {
	system := 0
	if imperial {
		system = 1
	}
	switch d {
	case OfLength:
		return bareLength(v, imperial)
	case OfShare:
		if v > 1 {
			return v / 100, nil
		}
		return v, nil
	}
	return v * bare[d][system].si, nil
}

// bareLength reads a length without a unit. Metric lengths of a car are a few
// metres or some hundred millimetres, and what lies between is asked about.
func bareLength(v float64, imperial bool) (float64, error) {
	switch {
	case imperial:
		return v * inch, nil
	case v < 10:
		return v, nil
	case v >= 100:
		return v / 1000, nil
	}
	return 0, fmt.Errorf("%g could be centimetres or inches: type it like %s", v, examples[OfLength])
}

// Show prints an SI value of a dimension in metric or imperial units.
func Show(d Dimension, v float64, imperial bool) string {
	switch {
	case d == OfShare:
		return trim(v*100, 1) + " %"
	case d == OfRatio:
		return trim(v, 3)
	case d == OfLength && imperial:
		return trim(v/inch, 1) + " in"
	case d == OfLength:
		return trim(v, 3) + " m"
	}
	s := bare[d][0]
	if imperial {
		s = bare[d][1]
	}
	decimals := 1
	if d == OfMass || imperial {
		decimals = 0
	}
	return trim(v/s.si, decimals) + " " + s.name
}

// trim prints with at most so many decimals and no trailing zeros.
func trim(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}
