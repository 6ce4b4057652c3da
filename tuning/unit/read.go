package unit

import (
	"fmt"
	"strconv"
)

// Read turns what a person typed into the SI value of a dimension. A number
// without a unit is read in metric or imperial units. The error is one sentence
// that says what to type, and is an *Ambiguous where a comma can mean two
// things. Values that are not finite or outside the dimension's bounds are
// refused; zero is left to the caller where the bounds allow it.
func Read(d Dimension, text string, imperial bool) (float64, error) {
	row, known := dimensionOf(d)
	if !known {
		return 0, fmt.Errorf("%s is no dimension", d)
	}
	number, suffix := split(squeeze(text))
	plain, thousands, ok := uncomma(number)
	if !ok {
		return 0, fmt.Errorf("%s has a comma that I cannot read: type it like %s", quote(text), row.example)
	}
	v, err := strconv.ParseFloat(plain, 64)
	if err != nil {
		return 0, fmt.Errorf("%s is not a number I can use: type it like %s", quote(text), row.example)
	}
	si, err := row.inSI(v, suffix, imperial)
	switch {
	case err != nil:
		return 0, err
	case thousands != "":
		return 0, &Ambiguous{Text: text, Decimal: plain + suffix, Thousands: thousands + suffix}
	}
	return si, row.check(si, v, text)
}

// inSI is a number with a unit behind it, or none.
func (row dimension) inSI(v float64, suffix string, imperial bool) (float64, error) {
	if suffix == "" {
		if row.bareRead == nil {
			return row.shown[system(imperial)].toSI(v), nil
		}
		si, ok := row.bareRead(v, imperial)
		if !ok {
			return 0, fmt.Errorf("say the unit of %g: type it like %s", v, row.example)
		}
		return si, nil
	}
	for _, s := range row.units {
		if s.name == suffix {
			return s.toSI(v), nil
		}
	}
	return 0, fmt.Errorf("%s is not a unit of %s I know: type it like %s", quote(suffix), row.of, row.example)
}

// check refuses a value outside the bounds. V is the number as it was typed.
func (row dimension) check(si, v float64, text string) error {
	switch {
	case row.between != "" && !(si >= row.low && si <= row.high):
		return fmt.Errorf("a %s between %s is expected: type it like %s", row.of, row.between, row.example)
	case v < 0 && row.low == 0:
		return fmt.Errorf("a negative %s cannot be: type it like %s", row.of, row.example)
	case !(si >= row.low && si <= row.high):
		return fmt.Errorf("%s is too large: type it like %s", quote(text), row.example)
	}
	return nil
}
