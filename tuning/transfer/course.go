package transfer

import (
	"cmp"
	"errors"
	"fmt"

	"detent/tuning/unit"
)

// Course is an acceleration prescribed in time: straight between its points,
// held before the first and after the last. Two points at one time are a jump.
type Course []Point

// Point is one point of a course.
type Point struct {
	At    unit.Seconds
	Value unit.Acceleration
}

// Manoeuvre is what the car does.
type Manoeuvre struct {
	Lateral      Course // a_y, positive in a left turn
	Longitudinal Course // a_x, positive on the throttle
	// Settled starts the car at rest in the accelerations of time zero, and not
	// at rest on the straight.
	Settled bool
}

// longest is the longest a manoeuvre may last.
const longest = unit.Seconds(600)

func (c Course) check(name string) error {
	if len(c) == 0 {
		return fmt.Errorf("the %s course has no point", name)
	}
	for i, p := range c {
		if err := unit.Between("time", p.At, 0, longest); err != nil {
			return fmt.Errorf("%s course: %w", name, err)
		}
		if err := checkAcceleration(p.Value); err != nil {
			return fmt.Errorf("%s course: %w", name, err)
		}
		if i > 0 && p.At < c[i-1].At {
			return fmt.Errorf("%s course: the times must not fall", name)
		}
	}
	return nil
}

func (m Manoeuvre) check(at []unit.Seconds) error {
	if len(at) == 0 {
		return errors.New("no time is asked for")
	}
	for i, t := range at {
		if err := unit.Between("time", t, 0, longest); err != nil {
			return err
		}
		if i > 0 && t <= at[i-1] {
			return errors.New("the times asked for must rise")
		}
	}
	return cmp.Or(m.Lateral.check("lateral"), m.Longitudinal.check("longitudinal"))
}

// End is the value the course ends on, 0 for one without points.
func (c Course) End() unit.Acceleration {
	if len(c) == 0 {
		return 0
	}
	return c[len(c)-1].Value
}

// line is a course on the way from one of its points to the next.
type line struct {
	from, value, slope float64
	until              float64 // where the next line begins; never for the last
}

func (l *line) at(t float64) float64 { return l.value + l.slope*(t-l.from) }

// lineFrom is the line a course follows just after a time.
func (c Course) lineFrom(t float64) line {
	next := 0
	for next < len(c) && float64(c[next].At) <= t {
		next++
	}
	switch {
	case next == 0:
		return line{value: float64(c[0].Value), until: float64(c[0].At)}
	case next == len(c):
		return line{value: float64(c.End()), until: float64(longest) + 1}
	}
	a, b := c[next-1], c[next]
	return line{
		from:  float64(a.At),
		value: float64(a.Value),
		slope: float64(b.Value-a.Value) / float64(b.At-a.At),
		until: float64(b.At),
	}
}
