// Package unit holds the physical quantities the rest of the program speaks
// in. A quantity's type is its unit: every value inside the program is SI, and
// the only places where another unit appears are Read and Show, at the edge
// where a person types or reads.
package unit

import "math"

// The SI quantities. Angles are radians and dimensionless.
type (
	Mass         float64 // kg
	Length       float64 // m
	Speed        float64 // m/s
	Acceleration float64 // m/s²
	Force        float64 // N
	Stiffness    float64 // N/m
	RollRate     float64 // N·m/rad
	Damping      float64 // N·s/m
	Inertia      float64 // kg·m²
	Frequency    float64 // Hz
	Seconds      float64 // s
	Angle        float64 // rad
	Ratio        float64 // a plain number
	Share        float64 // a part of a whole, 0 to 1
	Pressure     float64 // Pa above the air around
	Temperature  float64 // K
)

// Degree is one degree in radians, for angles that are written down in degrees.
const Degree = math.Pi / 180

// Gravity is the acceleration of free fall used throughout, 9.81 m/s². The
// standard value is 9.80665; the trade and the worked cases round it.
const Gravity Acceleration = 9.81
