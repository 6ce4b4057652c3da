package ride

import (
	"cmp"
	"fmt"
	"math"

	"detent/tuning/unit"
)

// Ratios are the damping ratios of a corner with a damper, slow and fast
// movement apart.
type Ratios struct {
	Low, High Sides
}

// Sides are the damping ratios of bump and rebound, and their mean.
type Sides struct {
	Bump, Rebound, Mean unit.Ratio
}

// fast is how many times the split speed the fast movement reaches.
const fast = 5

// Ratios returns the damping ratios c/(2√(k_w·m_s)) of a damper at the wheel.
// Slow is the mean slope from rest to the split speed, fast the mean slope from
// there to five times that speed; on a damper of two slopes with its knee at
// the split these are its two slopes.
func (c Corner) Ratios(d Damper, split unit.Speed) (Ratios, error) {
	if err := cmp.Or(c.Check(), d.Check(), unit.Positive("split speed", split)); err != nil {
		return Ratios{}, err
	}
	v, critical := float64(split), float64(c.critical())
	sides := func(from, to float64) Sides {
		slope := func(c curve) unit.Ratio {
			return unit.Ratio((c.at(to) - c.at(from)) / (to - from) / critical)
		}
		bump, rebound := slope(d.bump), slope(d.rebound)
		return Sides{bump, rebound, (bump + rebound) / 2}
	}
	return Ratios{Low: sides(0, v), High: sides(v, fast*v)}, nil
}

// worthOf is the change of damping ratio that ClicksFor is asked about.
const worthOf = 0.05

// ClicksFor returns how many clicks make a change of 0.05 of damping ratio,
// when the ratio goes from soft to hard over that many clicks. There is no
// answer if the adjuster changes nothing.
func ClicksFor(soft, hard unit.Ratio, clicks int) (float64, error) {
	change := math.Abs(float64(hard - soft))
	if clicks < 1 || unit.Positive("change", change) != nil {
		return 0, fmt.Errorf("a change of ratio from %g to %g over %d clicks says nothing about one click",
			float64(soft), float64(hard), clicks)
	}
	return worthOf * float64(clicks) / change, nil
}
