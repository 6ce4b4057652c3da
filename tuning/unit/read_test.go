package unit

import (
	"errors"
	"math"
	"strings"
	"testing"
	"unicode/utf8"
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
		{OfMass, "1,25t", false, 1250},
		{OfMass, "1.25 t", true, 1250},
		{OfShare, "52,5%", false, 0.525},
		{OfRatio, "0,95", false, 0.95},
		{OfRatio, "0,955", false, 0.955}, // no thousands begin with 0
		{OfLength, "2,5501", false, 2.5501},
		{OfLength, "1480,5 mm", false, 1.4805},
		{OfMass, "1250,125kg", false, 1250.125}, // nor with more than three digits
		{OfMass, "1\u00a0250 kg", false, 1250},
		{OfAngle, "6,5 °", false, 0.11344640137963143},
		{OfAngle, "6.5", true, 0.11344640137963143},
		{OfAngle, "-1.5 degrees", false, -0.026179938779914945},
		{OfPressure, "2,1 bar", false, 2.1e5},
		{OfPressure, "2.1", false, 2.1e5},
		{OfPressure, "210", false, 2.1e5},
		{OfPressure, "210 kPa", true, 2.1e5},
		{OfPressure, "30", true, 30 * 6894.757293168362},
		{OfPressure, "30PSI", false, 30 * 6894.757293168362},
		{OfTemperature, "24 °C", true, 297.15},
		{OfTemperature, "24c", false, 297.15},
		{OfTemperature, "24", false, 297.15},
		{OfTemperature, "75.2", true, 297.15},
		{OfTemperature, "75.2°F", false, 297.15},
		{OfTemperature, "-5", false, 268.15},
		{OfTemperature, "\u22125 °C", false, 268.15},
		{OfTemperature, "0", false, 273.15},
	} {
		got, err := Read(tt.d, tt.text, tt.imperial)
		if err != nil || math.Abs(got-tt.want) > 1e-9*math.Abs(tt.want) {
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
		{OfMass, "1e309"}, {OfStiffness, "1e308"}, {OfStiffness, "1e308kN/m"}, {OfMass, "infkg"}, {OfMass, ""}, {OfMass, "kg"}, {OfMass, "1,,2kg"}, {OfMass, "1,2.5kg"}, {OfMass, "1.2,5kg"}, {OfMass, "1,kg"}, {OfMass, ","},
		{OfAngle, "6.5%"}, {OfPressure, "32"}, {OfPressure, "32 bar"}, {OfPressure, "210 bar"}, {OfPressure, "0"}, {OfPressure, "-2bar"}, {OfPressure, "2000"}, {OfTemperature, "300"}, {OfTemperature, "-50"}, {OfTemperature, "24k"},
		{OfMass, "1e300"}, {"weight", "3kg"}, {OfMass, "12.5.0kg"},
		{OfLength, "48"}, {OfRatio, "0.95m"}, {OfMass, "0x10"}, {OfMass, "1_000"},
	} {
		if got, err := Read(tt.d, tt.text, false); err == nil {
			t.Errorf("Read(%s, %q) = %v, want a refusal", tt.d, tt.text, got)
		}
	}
}

func TestThreeDigitsAfterACommaAreAskedAbout(t *testing.T) {
	for text, want := range map[string]Ambiguous{
		"1,250kg":  {"1,250kg", "1.250kg", "1250kg"},
		"1,250":    {"1,250", "1.250", "1250"},
		"12,500kg": {"12,500kg", "12.500kg", "12500kg"},
	} {
		_, err := Read(OfMass, text, false)
		var ambiguous *Ambiguous
		if !errors.As(err, &ambiguous) || *ambiguous != want {
			t.Fatalf("Read(%q): %v", text, err)
		}
		decimal, err := Read(OfMass, ambiguous.Decimal, false)
		if err != nil {
			t.Error(err)
		}
		if thousands, err := Read(OfMass, ambiguous.Thousands, false); err != nil || math.Abs(thousands-1000*decimal) > 1e-9 {
			t.Errorf("%q can be typed as %v or %v, %v", text, decimal, thousands, err)
		}
	}
	if _, err := Read(OfMass, "1,250N/mm", false); errors.As(err, new(*Ambiguous)) {
		t.Error("a wrong unit is asked about as a comma")
	}
	if _, err := Read(OfMass, "1,250kg", false); err.Error() != `"1,250kg" could mean 1.250kg or 1250kg: type it without a comma` {
		t.Error(err)
	}
}

func TestErrorsRepeatNoMoreThanNeeded(t *testing.T) {
	for _, text := range []string{strings.Repeat("9x", 500), "5\u202ekg", "5\x00kg"} {
		_, err := Read(OfMass, text, false)
		if err == nil || utf8.RuneCountInString(err.Error()) > 160 || strings.ContainsAny(err.Error(), "\u202e\x00") {
			t.Errorf("%q is refused with %v", text, err)
		}
	}
}

// What is read is finite and within the bounds, and what was read is printed and
// read back.
func FuzzRead(f *testing.F) {
	for _, s := range []string{"25N/mm", "1e309", "nan", "54%", "-0", "0x1p-2", "1e", "٣kg", "1,250kg", "1,25t", "2,1 bar", "-5°c", "1,2,3", "\u22121"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, d := range dimensions {
			for _, imperial := range []bool{false, true} {
				v, err := Read(d.of, text, imperial)
				var ambiguous *Ambiguous
				switch {
				case errors.As(err, &ambiguous):
					for _, again := range []string{ambiguous.Decimal, ambiguous.Thousands} {
						if _, err := Read(d.of, again, imperial); errors.As(err, new(*Ambiguous)) {
							t.Errorf("%q is asked about as %q, which is asked about again", text, again)
						}
					}
				case err == nil && !(v >= d.low && v <= d.high):
					t.Errorf("Read(%s, %q) = %v", d.of, text, v)
				case err == nil && v < 1e12:
					if _, err := Read(d.of, Show(d.of, v, imperial), imperial); err != nil && d.between == "" {
						t.Errorf("%q is printed as %q, which is refused: %v", text, Show(d.of, v, imperial), err)
					}
				}
			}
		}
	})
}
