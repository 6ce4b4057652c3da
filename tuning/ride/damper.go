package ride

import (
	"cmp"
	"errors"

	"detent/tuning/unit"
)

// Damper is the force of a damper by its speed, bump and rebound apart, each a
// chain of straight lines that starts at rest without force and goes on beyond
// its last point with its last slope. The zero Damper is not usable.
type Damper struct {
	bump, rebound curve
}

// curve is one direction of a damper: its straight pieces by rising speed. The
// speeds and forces of both directions count positive.
type curve []piece

type piece struct {
	from  float64 // m/s
	force float64 // at from, N
	slope float64 // N·s/m
}

// Knee is one direction of a damper with two slopes.
type Knee struct {
	Low  unit.Damping // slope up to the knee
	High unit.Damping // slope beyond it
	At   unit.Speed   // where the knee is
}

// Kneed returns a damper of two slopes a side. The low slopes and the knees
// must be positive, the high slopes not negative.
func Kneed(bump, rebound Knee) (Damper, error) {
	if err := cmp.Or(bump.check("bump"), rebound.check("rebound")); err != nil {
		return Damper{}, err
	}
	return Damper{bump: bump.curve(), rebound: rebound.curve()}, nil
}

func (k Knee) check(side string) error {
	return cmp.Or(
		unit.Positive(side+" slope", k.Low),
		unit.NotNegative(side+" slope beyond the knee", k.High),
		unit.Positive(side+" knee speed", k.At),
	)
}

func (k Knee) curve() curve {
	low, high, at := float64(k.Low), float64(k.High), float64(k.At)
	return curve{{0, 0, low}, {at, low * at, high}}
}

// Check returns an error for a damper that was never made.
func (d Damper) Check() error {
	if len(d.bump) == 0 || len(d.rebound) == 0 {
		return errors.New("the damper has no force curve")
	}
	return nil
}

// Force returns the force that holds against the speed: positive in bump
// (v > 0), negative in rebound. Force and Regime run in stepping loops, so they
// take a pointer.
func (d *Damper) Force(v unit.Speed) unit.Force {
	if v < 0 {
		return unit.Force(-d.rebound.at(float64(-v)))
	}
	return unit.Force(d.bump.at(float64(v)))
}

func (c curve) at(v float64) float64 {
	p := &c[c.piece(v)]
	return p.force + p.slope*(v-p.from)
}

// piece is the index of the straight piece that v ≥ 0 lies on.
func (c curve) piece(v float64) int {
	i := len(c) - 1
	for i > 0 && v < c[i].from {
		i--
	}
	return i
}

// Regime numbers the straight piece a speed lies on: 0, 1, ... in bump and -1,
// -2, ... in rebound. Where it changes, the force has a kink.
func (d *Damper) Regime(v unit.Speed) int {
	if v < 0 {
		return -1 - d.rebound.piece(-float64(v))
	}
	return d.bump.piece(float64(v))
}

// Steepest is the steepest slope the damper has anywhere.
func (d Damper) Steepest() unit.Damping {
	var steepest float64
	for _, side := range []curve{d.bump, d.rebound} {
		for _, p := range side {
			steepest = max(steepest, p.slope)
		}
	}
	return unit.Damping(steepest)
}

// Scaled returns the damper with its bump and rebound forces multiplied by
// positive factors.
func (d Damper) Scaled(bump, rebound unit.Ratio) (Damper, error) {
	if err := cmp.Or(d.Check(), unit.Positive("bump factor", bump), unit.Positive("rebound factor", rebound)); err != nil {
		return Damper{}, err
	}
	return Damper{bump: d.bump.scaled(float64(bump), 1), rebound: d.rebound.scaled(float64(rebound), 1)}, nil
}

// AtWheel returns the damper as the wheel feels it through a motion ratio
// (damper travel over wheel travel): force times MR, speed over MR, and so
// slope times MR².
func (d Damper) AtWheel(motion unit.Ratio) (Damper, error) {
	if err := cmp.Or(d.Check(), unit.Positive("motion ratio", motion)); err != nil {
		return Damper{}, err
	}
	force, speed := float64(motion), 1/float64(motion)
	return Damper{bump: d.bump.scaled(force, speed), rebound: d.rebound.scaled(force, speed)}, nil
}

func (c curve) scaled(force, speed float64) curve {
	scaled := make(curve, len(c))
	for i, p := range c {
		scaled[i] = piece{p.from * speed, p.force * force, p.slope * force / speed}
	}
	return scaled
}
