package unit

import (
	"math"
	"reflect"
	"strings"
	"testing"
)

// A dimension that lacks part of its row would print "+Inf" or "NaN".
func TestEveryDimensionIsWhole(t *testing.T) {
	seen := map[Dimension]bool{}
	for _, d := range dimensions {
		if seen[d.of] {
			t.Errorf("%s stands twice", d.of)
		}
		seen[d.of] = true
		if d.example == "" || d.one == "" || Example(d.of) != d.one || !(d.high > d.low) || (d.between == "") != (d.high == absurd) {
			t.Errorf("%s is not whole: %+v", d.of, d)
		}
		if back, ok := DimensionOf(d.is); !ok || back != d.of {
			t.Errorf("the type of %s is of %q", d.of, back)
		}
		for _, s := range d.units {
			if s.name == "" || s.name != squeeze(s.name) || !(s.si > 0) || math.IsInf(s.si, 0) {
				t.Errorf("%s has the unit %+v", d.of, s)
			}
		}
		for i, s := range d.shown {
			if !(s.si > 0) || s.decimals < 0 || s.decimals > 6 || squeeze(s.print) != s.name || s.print != "" && s.print != "°" && s.print[0] != ' ' {
				t.Errorf("%s is shown as %+v", d.of, s)
			}
			same := s.name == ""
			for _, u := range d.units {
				same = same || u == s.scale
			}
			if !same {
				t.Errorf("%s prints %q, which its units do not hold", d.of, s.print)
			}
			for _, example := range append(strings.Split(strings.ReplaceAll(d.example, " or ", ", "), ", "), d.one) {
				v, err := Read(d.of, example, i == 1)
				if err != nil {
					t.Errorf("the example %q of %s is refused: %v", example, d.of, err)
				}
				if back, err := Read(d.of, Show(d.of, v, i == 1), i == 1); err != nil || math.Abs(back-v) > 0.01*v {
					t.Errorf("%q is shown as %q and read back as %v, %v", example, Show(d.of, v, i == 1), back, err)
				}
			}
		}
	}
	if _, ok := dimensionOf("weight"); ok || Example("weight") != "" || Show("weight", 3, false) != "3" {
		t.Error("an unknown dimension is known")
	}
	if _, ok := DimensionOf(reflect.TypeFor[float64]()); ok {
		t.Error("a bare number has a dimension")
	}
}
