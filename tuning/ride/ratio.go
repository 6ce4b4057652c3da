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

// The nominal damper: what is assumed of a damper nobody has measured. An
// assumption of this program, not a published figure.
const (
	nominalSoft = 0.25              // mean damping ratio at full soft
	nominalHard = 1.0               // and at full hard
	nominalFast = 0.45              // slope beyond the knee over the slope below it
	NominalKnee = unit.Speed(0.06)  // of the damper shaft
	nominalBump = unit.Ratio(2) / 3 // bump over mean, so that rebound is twice bump
)

// Nominal returns the damper, at the wheel, that is assumed where no force
// table is known: mean damping ratio rising evenly with the click from 0.25 at
// full soft (0) to 1.0 at full hard (clicks), rebound twice bump, the knee at
// 0.06 m/s of the shaft. Every answer that rests on it is an estimate.
func (c Corner) Nominal(motion unit.Ratio, click, clicks int) (Damper, error) {
	if err := cmp.Or(c.Check(), unit.Positive("motion ratio", motion)); err != nil {
		return Damper{}, err
	}
	if clicks < 1 || click < 0 || click > clicks {
		return Damper{}, fmt.Errorf("click %d lies outside 0 to %d", click, clicks)
	}
	ratio := nominalSoft + (nominalHard-nominalSoft)*unit.Ratio(click)/unit.Ratio(clicks)
	side := func(ratio unit.Ratio) Knee {
		slope := unit.Damping(ratio) * c.critical()
		return Knee{Low: slope, High: slope * nominalFast, At: NominalKnee / unit.Speed(motion)}
	}
	return Kneed(side(ratio*nominalBump), side(ratio*(2-nominalBump)))
}
