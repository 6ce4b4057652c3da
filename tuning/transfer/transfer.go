// Package transfer follows the loads of a car's four tyres through a manoeuvre,
// and tells what a change of its dampers does to the balance.
//
// The car has seven degrees of freedom: heave z (up), pitch θ (nose down), roll
// φ (left side up) of the body, and the heights of the four wheels, all from
// rest. Axes are those of ISO 8855: x forward, y left, z up; wheels in the order
// front left, front right, rear left, rear right. The accelerations are
// prescribed: there is no yaw, no tyre lag and no driver.
package transfer

import (
	"fmt"

	"detent/tuning/unit"
)

// Front and Rear index figures kept by axle; FL to RR those kept by wheel.
const (
	Front = iota
	Rear
)

const (
	FL = iota
	FR
	RL
	RR
)

// The sizes a physical figure may have, as in package ride.
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

// within returns an error naming the quantity unless it lies in the range.
func within[T ~float64](name string, v, low, high T) error {
	if !(v >= low && v <= high) {
		return fmt.Errorf("%s must lie between %g and %g, not %g", name, float64(low), float64(high), float64(v))
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

// gravity is the acceleration of free fall as a bare number, m/s².
const gravity = float64(unit.Gravity)
