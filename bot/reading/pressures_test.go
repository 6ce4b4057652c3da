package reading_test

import (
	"math"
	"strings"
	"testing"

	"detent/bot/reading"
	"detent/tuning"
	"detent/tuning/unit"
)

const (
	bar = 1e5
	psi = 6894.757 // Pa, from memory
)

func TestPressuresAreReadAsPeopleTypeThem(t *testing.T) {
	for typed, want := range map[string]tuning.Pressures{
		"2.1":                            {2.1 * bar, 2.1 * bar, 2.1 * bar, 2.1 * bar},
		"2,1 bar":                        {2.1 * bar, 2.1 * bar, 2.1 * bar, 2.1 * bar},
		"210":                            {2.1 * bar, 2.1 * bar, 2.1 * bar, 2.1 * bar},
		"30psi":                          {30 * psi, 30 * psi, 30 * psi, 30 * psi},
		"2.1/2.0":                        {2.1 * bar, 2.1 * bar, 2 * bar, 2 * bar},
		"30 29 psi":                      {30 * psi, 30 * psi, 29 * psi, 29 * psi},
		"Front: 2.1, rear: 2.0":          {2.1 * bar, 2.1 * bar, 2 * bar, 2 * bar},
		"rear 2,05 hot":                  {0, 0, 2.05 * bar, 2.05 * bar},
		"FL 2.1 FR 2.2 RL 2.0 RR 1.9":    {2.1 * bar, 2.2 * bar, 2 * bar, 1.9 * bar},
		"2.1 2.2 2.0 1.9":                {2.1 * bar, 2.2 * bar, 2 * bar, 1.9 * bar},
		"rr=1.9bar":                      {0, 0, 0, 1.9 * bar},
		"fl 30psi fr 2.1bar rear 200kPa": {30 * psi, 2.1 * bar, 2 * bar, 2 * bar},
	} {
		got, heat, err := reading.Pressures(typed, false)
		if err != nil || (heat == tuning.TakenHot) != strings.Contains(typed, "hot") {
			t.Errorf("%q: %q, %v", typed, heat, err)
		}
		for c := range got {
			if math.Abs(float64(got[c]-want[c])) > 1 {
				t.Errorf("%q: %v at %d, want %v", typed, got[c], c, want[c])
			}
		}
	}
}

func TestPressuresThatCannotBeRead(t *testing.T) {
	for _, c := range []struct {
		typed    string
		imperial bool
		says     string
	}{
		{"30", false, "Which unit has the pressure 30? Type 30psi or 30kPa."},
		{"front 2.1 rear 31", false, "Which unit has the pressure 31? Type 31psi or 31kPa."},
		{"2.1", true, "Which unit has the pressure 2.1? Type 2.1bar."},
		{"XL 2.1", false, `There is no wheel "xl": use FL, FR, RL, RR, front, rear or all.`},
		{"front 2.1 FL 2.0", false, "You gave the pressure of FL twice"},
		{"2.1 2.0 1.9", false, "not clear which wheel"},
		{"front 2.1 2.0", false, "not clear which wheel"},
		{"front rear 2.1", false, `no pressure behind "front"`},
		{"2.1 front", false, "no pressure behind"},
		{"hot", false, "cannot read pressures"},
		{"", false, "cannot read pressures"},
		{"2.1x", false, "is not a unit of pressure"},
		{"9bar", false, "a pressure between"},
		{"-2.1", false, "a pressure between"},
		{"2.1 2.0 bar bar x", false, "no pressure behind"},
	} {
		_, _, err := reading.Pressures(c.typed, c.imperial)
		if tuning.KindOf(err) != tuning.Invalid || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: %v, want %q", c.typed, err, c.says)
		}
	}
}

// What is read is within the bounds of a pressure, and prints as what can be
// read again.
func FuzzPressures(f *testing.F) {
	for _, s := range []string{"2.1", "front 2.1 rear 2.0", "fl 30psi, rr 1,9bar hot", "2.1/2.0 kpa", "all: 210", "20kpa"} {
		f.Add(s, false)
		f.Add(s, true)
	}
	f.Fuzz(func(t *testing.T, typed string, imperial bool) {
		p, _, err := reading.Pressures(typed, imperial)
		if err != nil {
			return
		}
		if !p.Known() {
			t.Fatalf("%q is read as nothing", typed)
		}
		for _, v := range p {
			if _, err := unit.Read(unit.OfPressure, unit.Show(unit.OfPressure, float64(v), imperial), imperial); v != 0 && err != nil {
				t.Fatalf("%q is read as %v: %v", typed, v, err)
			}
		}
	})
}
