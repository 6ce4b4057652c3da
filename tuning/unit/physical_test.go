package unit

import (
	"math"
	"testing"
)

func TestPhysicalSizes(t *testing.T) {
	for _, c := range []struct {
		v                             float64
		positive, notNegative, inside bool // from -1 to 1
	}{
		{1, true, true, true},
		{1e12, true, true, false},
		{2e12, false, false, false},
		{1e-9, true, true, true},
		{1e-10, false, true, true},
		{0, false, true, true},
		{-1, false, false, true},
		{math.NaN(), false, false, false},
		{math.Inf(1), false, false, false},
		{math.Inf(-1), false, false, false},
	} {
		if got := Positive("v", c.v) == nil; got != c.positive {
			t.Errorf("Positive(%g) is %v", c.v, got)
		}
		if got := NotNegative("v", c.v) == nil; got != c.notNegative {
			t.Errorf("NotNegative(%g) is %v", c.v, got)
		}
		if got := Between("v", c.v, -1, 1) == nil; got != c.inside {
			t.Errorf("Between(%g) is %v", c.v, got)
		}
	}
}
