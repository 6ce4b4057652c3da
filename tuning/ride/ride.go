// Package ride looks at one corner of a car on the road: a sprung mass on a
// spring and damper, an unsprung mass on a tyre. It knows the corner's natural
// frequencies and damping ratios, its answer to a step, to rough ground and to
// a kerb, and from those where the window of good damper settings lies.
//
// Every figure is at the wheel, in SI units. A spring or damper that moves by
// the motion ratio MR = own travel / wheel travel appears at the wheel with its
// rate or slope times MR² and its speeds divided by MR.
package ride

import (
	"fmt"
	"math"

	"detent/tuning/unit"
)

// The sizes a physical figure may have. Far outside them no car exists, and
// inside them no intermediate result can overflow.
const (
	least = 1e-9
	most  = 1e12
)

// positive returns an error naming the quantity unless v is a positive number
// of physical size.
func positive[T ~float64](name string, v T) error {
	if f := float64(v); !(f >= least && f <= most) {
		return fmt.Errorf("%s must be a positive number of physical size, not %g", name, f)
	}
	return nil
}

// notNegative is positive with nothing allowed too.
func notNegative[T ~float64](name string, v T) error {
	if f := float64(v); !(f >= 0 && f <= most) {
		return fmt.Errorf("%s must be zero or a positive number of physical size, not %g", name, f)
	}
	return nil
}

// firstError returns the first error that is not nil.
func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// WheelRate is the rate at the wheel of a spring of the given rate, k·MR². Both
// arguments must be positive.
func WheelRate(spring unit.Stiffness, motion unit.Ratio) (unit.Stiffness, error) {
	if err := firstError(positive("spring rate", spring), positive("motion ratio", motion)); err != nil {
		return 0, err
	}
	return spring * unit.Stiffness(motion*motion), nil
}

// FromDeflection is the natural frequency of a mass that compresses its spring
// by the given length at rest, √(g/δ)/2π.
func FromDeflection(static unit.Length) (unit.Frequency, error) {
	if err := positive("static deflection", static); err != nil {
		return 0, err
	}
	return unit.Frequency(math.Sqrt(float64(unit.Gravity)/float64(static)) / (2 * math.Pi)), nil
}
