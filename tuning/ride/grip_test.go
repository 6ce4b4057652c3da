package ride

import (
	"math"
	"testing"

	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

// The closed form of E[Y(x)] against a plain sum over the normal density.
func TestRoadGripAgainstSum(t *testing.T) {
	for _, c := range []Corner{ordinaryCorner(), stiffCorner(), {Sprung: 60, Unsprung: 30, Wheel: 50000, Tyre: 400000}} {
		d := linear(t, 2000)
		road := Bumpy.road()
		unrest := c.onRoad(d, road)
		sigma := math.Sqrt(unrest.Load)
		var sum float64
		const n = 400000
		for i := range n {
			x := 1 + sigma*(16*(float64(i)+0.5)/n-8)
			density := math.Exp(-math.Pow((x-1)/sigma, 2)/2) / math.Sqrt(2*math.Pi)
			sum += float64(Ordinary.SideForce(unit.Ratio(x))) * density * 16 / n
		}
		tuningtest.Near(t, "road grip", float64(unrest.Grip(Ordinary)), sum-unrest.Lag, 1e-9)
	}
}
