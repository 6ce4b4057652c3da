package ride

import (
	"cmp"
	"fmt"
	"slices"

	"detent/tuning/unit"
)

// Table is what a damper dynamometer measured: the force at some speeds, for
// some positions of the adjuster. All of it at the damper, not at the wheel. A
// position is counted in clicks from full soft.
type Table struct {
	clicks        []int
	speeds        []unit.Speed
	bump, rebound [][]unit.Force // by position, then by speed
}

// NewTable makes a force table of at least two positions and two speeds. Clicks
// must rise from 0 or more, speeds from above zero; there must be one row of
// forces for each position and one force for each speed; forces, bump and
// rebound alike, count positive and never fall as the speed rises.
func NewTable(clicks []int, speeds []unit.Speed, bump, rebound [][]unit.Force) (Table, error) {
	t := Table{slices.Clone(clicks), slices.Clone(speeds), cloned(bump), cloned(rebound)}
	if err := cmp.Or(t.checkAxes(), t.checkForces("bump", bump), t.checkForces("rebound", rebound)); err != nil {
		return Table{}, err
	}
	return t, nil
}

func cloned(rows [][]unit.Force) [][]unit.Force {
	own := make([][]unit.Force, len(rows))
	for i, row := range rows {
		own[i] = slices.Clone(row)
	}
	return own
}

func (t Table) checkAxes() error {
	if len(t.clicks) < 2 {
		return fmt.Errorf("a force table needs at least two positions, not %d", len(t.clicks))
	}
	if len(t.speeds) < 2 {
		return fmt.Errorf("a force table needs at least two speeds, not %d", len(t.speeds))
	}
	for i, click := range t.clicks {
		if click < 0 || i > 0 && click <= t.clicks[i-1] {
			return fmt.Errorf("positions must rise from 0 or more: %d is out of order", click)
		}
	}
	for i, speed := range t.speeds {
		if err := unit.Positive("speed", speed); err != nil {
			return err
		}
		if i > 0 && speed <= t.speeds[i-1] {
			return fmt.Errorf("speeds must rise: %g m/s is out of order", float64(speed))
		}
	}
	return nil
}

func (t Table) checkForces(side string, forces [][]unit.Force) error {
	if len(forces) != len(t.clicks) {
		return fmt.Errorf("%s has %d rows of forces for %d positions", side, len(forces), len(t.clicks))
	}
	for i, row := range forces {
		if len(row) != len(t.speeds) {
			return fmt.Errorf("%s at click %d has %d forces for %d speeds", side, t.clicks[i], len(row), len(t.speeds))
		}
		for j, force := range row {
			if err := unit.Positive(fmt.Sprintf("%s force at click %d", side, t.clicks[i]), force); err != nil {
				return err
			}
			if j > 0 && force < row[j-1] {
				return fmt.Errorf("%s force at click %d falls from %g to %g N as the speed rises",
					side, t.clicks[i], float64(row[j-1]), float64(force))
			}
		}
	}
	return nil
}

// Range returns the softest and the hardest position measured.
func (t Table) Range() (softest, hardest int) {
	if len(t.clicks) == 0 {
		return 0, 0
	}
	return t.clicks[0], t.clicks[len(t.clicks)-1]
}

// Damper returns the damper at one position: straight lines between measured
// speeds, and between measured positions. Outside the measured positions there
// is no answer.
func (t Table) Damper(click int) (Damper, error) {
	softest, hardest := t.Range()
	if len(t.clicks) == 0 || click < softest || click > hardest {
		return Damper{}, fmt.Errorf("click %d lies outside the force table (%d to %d)", click, softest, hardest)
	}
	above := 1
	for t.clicks[above] < click {
		above++
	}
	share := float64(click-t.clicks[above-1]) / float64(t.clicks[above]-t.clicks[above-1])
	return Damper{
		bump:    t.curve(t.bump[above-1], t.bump[above], share),
		rebound: t.curve(t.rebound[above-1], t.rebound[above], share),
	}, nil
}

// curve joins rest and the measured speeds by straight lines, each force a
// share of the way from one position's to the next one's.
func (t Table) curve(soft, hard []unit.Force, share float64) curve {
	var c curve
	var from, force float64
	for i, speed := range t.speeds {
		to := float64(speed)
		reached := float64(soft[i]) + share*float64(hard[i]-soft[i])
		c = append(c, piece{from, force, (reached - force) / (to - from)})
		from, force = to, reached
	}
	return c
}
