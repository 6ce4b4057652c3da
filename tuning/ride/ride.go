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
	"cmp"

	"detent/tuning/unit"
)

// WheelRate is the rate at the wheel of a spring of the given rate, k·MR². Both
// arguments must be positive.
func WheelRate(spring unit.Stiffness, motion unit.Ratio) (unit.Stiffness, error) {
	if err := cmp.Or(unit.Positive("spring rate", spring), unit.Positive("motion ratio", motion)); err != nil {
		return 0, err
	}
	return spring * unit.Stiffness(motion*motion), nil
}
