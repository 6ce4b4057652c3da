package unit

import "fmt"

// The sizes a figure of a car may have in SI units. Far outside them no car
// exists, and inside them no intermediate result overflows. The errors of the
// functions below name the figure and what it should be.
const (
	least = 1e-9
	most  = 1e12
)

// Positive returns an error unless v is a positive number of physical size.
func Positive[T ~float64](name string, v T) error {
	if f := float64(v); !(f >= least && f <= most) {
		return fmt.Errorf("%s must be a positive number of physical size, not %g", name, f)
	}
	return nil
}

// NotNegative returns an error unless v is zero or a positive number of physical
// size.
func NotNegative[T ~float64](name string, v T) error {
	if f := float64(v); !(f >= 0 && f <= most) {
		return fmt.Errorf("%s must be zero or a positive number of physical size, not %g", name, f)
	}
	return nil
}

// Between returns an error unless v is a number from low to high.
func Between[T ~float64](name string, v, low, high T) error {
	if !(v >= low && v <= high) {
		return fmt.Errorf("%s must be a number from %g to %g, not %g", name, float64(low), float64(high), float64(v))
	}
	return nil
}
