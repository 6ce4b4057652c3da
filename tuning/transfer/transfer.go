// Package transfer follows the loads of a car's four tyres through a manoeuvre,
// and measures what a change of its dampers does to the balance on a flat road.
//
// The car has seven degrees of freedom: heave z (up), pitch θ (nose down), roll
// φ (left side up) of the body, and the heights of the four wheels, all from
// rest. Axes are those of ISO 8855: x forward, y left, z up; wheels in the order
// front left, front right, rear left, rear right. The accelerations are
// prescribed: there is no yaw, no tyre lag and no driver.
package transfer

import "detent/tuning/unit"

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

// gravity is the acceleration of free fall as a bare number, m/s².
const gravity = float64(unit.Gravity)
