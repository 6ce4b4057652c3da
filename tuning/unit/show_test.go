package unit

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestShow(t *testing.T) {
	for _, tt := range []struct {
		d    Dimension
		v    float64
		want [2]string
	}{
		{OfMass, 1250, [2]string{"1250 kg", "2756 lb"}},
		{OfLength, 2.55, [2]string{"2.55 m", "100.4 in"}},
		{OfStiffness, 70000, [2]string{"70 N/mm", "400 lb/in"}},
		{OfShare, 0.54, [2]string{"54 %", "54 %"}},
		{OfRatio, 0.95, [2]string{"0.95", "0.95"}},
		{OfAngle, 0.12, [2]string{"6.9°", "6.9°"}},
		{OfPressure, 2.1e5, [2]string{"2.1 bar", "30.5 psi"}},
		{OfTemperature, 297.15, [2]string{"24 °C", "75 °F"}},
		{OfTemperature, 273.14, [2]string{"0 °C", "32 °F"}},
	} {
		for i, imperial := range []bool{false, true} {
			if got := Show(tt.d, tt.v, imperial); got != tt.want[i] {
				t.Errorf("Show(%s, %v, %v) = %q, want %q", tt.d, tt.v, imperial, got, tt.want[i])
			}
		}
	}
}

// What is printed can be read, to within half of the last decimal printed.
func TestWhatIsShownReadsBack(t *testing.T) {
	for _, d := range dimensions {
		for i, imperial := range []bool{false, true} {
			rapid.Check(t, func(t *rapid.T) {
				high := min(d.high, 1e9)
				s := d.shown[i]
				half := s.si * math.Pow(10, -float64(s.decimals)) / 2
				v := rapid.Float64Range(d.low+half, high-half).Draw(t, "value")
				text := Show(d.of, v, imperial)
				back, err := Read(d.of, text, imperial)
				if err != nil || math.Abs(back-v) > half*(1+1e-6)+1e-12*math.Abs(v) {
					t.Fatalf("%v of %s is shown as %q and read back as %v, %v", v, d.of, text, back, err)
				}
			})
		}
	}
}
