package unit

import (
	"math"
	"testing"
)

// The factors between units are exact by definition; pound, inch and
// kilogram-force from memory of the definitions.
func TestRead(t *testing.T) {
	for _, tt := range []struct {
		d        Dimension
		text     string
		imperial bool
		want     float64
	}{
		{OfStiffness, "25 N/mm", false, 25000},
		{OfStiffness, "70N/mm", true, 70000},
		{OfStiffness, "450 lb/in", false, 450 * 175.12683524647636},
		{OfStiffness, "450", true, 450 * 175.12683524647636},
		{OfStiffness, "70", false, 70000},
		{OfStiffness, "8kg/mm", false, 78453.2},
		{OfStiffness, "70kN/m", false, 70000},
		{OfMass, "1250kg", true, 1250},
		{OfMass, "2750lb", false, 1247.3790175},
		{OfMass, "2750", true, 1247.3790175},
		{OfMass, "1.25e3 kg", false, 1250},
		{OfLength, "2550mm", false, 2.55},
		{OfLength, "2.55", false, 2.55},
		{OfLength, "2550", false, 2.55},
		{OfLength, "48cm", false, 0.48},
		{OfLength, "100in", false, 2.54},
		{OfLength, "100", true, 2.54},
		{OfShare, "54%", false, 0.54},
		{OfShare, "54 %", false, 0.54},
		{OfShare, "54", false, 0.54},
		{OfShare, "0.54", false, 0.54},
		{OfRatio, "0.95", false, 0.95},
	} {
		got, err := Read(tt.d, tt.text, tt.imperial)
		if err != nil || math.Abs(got-tt.want) > 1e-9*tt.want {
			t.Errorf("Read(%s, %q, %v) = %v, %v, want %v", tt.d, tt.text, tt.imperial, got, err, tt.want)
		}
	}
}

func TestReadRefuses(t *testing.T) {
	for _, tt := range []struct {
		d    Dimension
		text string
	}{
		{OfMass, "70N/mm"}, {OfStiffness, "70kg"}, {OfStiffness, "32psi"}, {OfMass, "-5kg"}, {OfMass, "NaN"}, {OfMass, "nankg"},
		{OfMass, "1e309"}, {OfStiffness, "1e308"}, {OfStiffness, "1e308kN/m"}, {OfMass, "infkg"}, {OfMass, ""}, {OfMass, "kg"}, {OfMass, "1,250kg"}, {OfMass, "12.5.0kg"},
		{OfLength, "48"}, {OfRatio, "0.95m"}, {OfMass, "0x10"}, {OfMass, "1_000"},
	} {
		if got, err := Read(tt.d, tt.text, false); err == nil {
			t.Errorf("Read(%s, %q) = %v, want a refusal", tt.d, tt.text, got)
		}
	}
}

func TestShowReadsBack(t *testing.T) {
	for _, tt := range []struct {
		d    Dimension
		v    float64
		want [2]string
	}{
		{OfMass, 1250, [2]string{"1250 kg", "2756 lb"}}, {OfLength, 2.55, [2]string{"2.55 m", "100.4 in"}},
		{OfStiffness, 70000, [2]string{"70 N/mm", "400 lb/in"}}, {OfShare, 0.54, [2]string{"54 %", "54 %"}}, {OfRatio, 0.95, [2]string{"0.95", "0.95"}},
	} {
		for i, imperial := range []bool{false, true} {
			got := Show(tt.d, tt.v, imperial)
			if got != tt.want[i] {
				t.Errorf("Show(%s, %v, %v) = %q, want %q", tt.d, tt.v, imperial, got, tt.want[i])
			}
			back, err := Read(tt.d, got, imperial)
			if err != nil || math.Abs(back-tt.v) > 0.005*tt.v {
				t.Errorf("%q reads back as %v, %v", got, back, err)
			}
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, s := range []string{"25N/mm", "1e309", "nan", "54%", "-0", "0x1p-2", "1e", "٣kg"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for d := range examples {
			v, err := Read(d, text, len(text)%2 == 0)
			if err == nil && !(v >= 0 && !math.IsInf(v, 1)) {
				t.Errorf("Read(%s, %q) = %v", d, text, v)
			}
		}
	})
}
