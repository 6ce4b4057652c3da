package ride

import (
	"cmp"
	"fmt"

	"detent/tuning/unit"
)

// The nominal damper: what is assumed of a damper nobody has measured. Rebound
// twice bump: "often recommended to exceed compression damping by a factor of two
// to three" (J. G. Telles Ribeiro, A. Cunha Jr, Scenario-driven optimization of
// passive vehicle suspensions: explaining the effectiveness of asymmetric damping,
// J. Vib. Eng. Technol., 2026, abstract read). Everything else is from memory; no
// published figure was found.
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
