package cases_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"detent/tuning/cases"
)

const (
	goodQuarter = `{"ms":240,"mu":36,"ks":16000,"cs":980,"kt":160000,"road_class":"B","v":20}`
	goodDamper  = `{"bump_lo":1900,"bump_hi":900,"bump_knee":0.05,"reb_lo":3400,"reb_hi":1700,"reb_knee":0.05}`
	goodWindow  = `{"ms":240,"mu":36,"kw":16000,"kt":160000,"relaxation":0.35,"clicks":[` + goodDamper + `],"surface":"smooth"}`
	goodCar     = `{"parameters":{"ms":960,"Ixx":380,"Iyy":1350,"a":0.98,"b":1.54,"tf":1.49,"tr":1.48,` +
		`"h_s":0.54,"h_u":0.3,"h_rc_f":0.06,"h_rc_r":0.12,"muf":38,"mur":34,"kwf":32000,"kwr":30000,` +
		`"ktf":210000,"ktr":205000,"K_arb_f":14000,"K_arb_r":0,"df":` + goodDamper + `,"dr":` + goodDamper + `},` +
		`"ay_points":[[0,0],[0.25,9]],"ax_points":[[0,0]],"t":[0,0.5]}`
	goodProfile = "elevation\n0\n0.01\n0.02\n0.01\n"
)

// Every mistake is named, and all at once.
func TestWrongQuestions(t *testing.T) {
	for _, c := range []struct {
		kind, question string
		names          []string
	}{
		{"quarter", ``, []string{"not a JSON object"}},
		{"quarter", `[1]`, []string{"not a JSON object"}},
		{"quarter", `{"ms":240`, []string{"not JSON"}},
		{"quarter", `{"ms":}`, []string{"not JSON"}},
		{"quarter", goodQuarter + `x`, []string{"after the end"}},
		{"quarter", `{}`, []string{"ms is missing", "mu is missing", "ks is missing", "cs is missing", "kt is missing",
			"v is missing", "road_class is missing"}},
		{"quarter", strings.Replace(goodQuarter, `"ms":240`, `"ms":0,"colour":"red"`, 1),
			[]string{"ms must be a positive number", "colour is unknown"}},
		{"quarter", strings.Replace(goodQuarter, `"ms":240`, `"MS":240`, 1), []string{"ms is missing", "MS is unknown"}},
		{"quarter", strings.Replace(goodQuarter, `"ms":240`, `"ms":240,"ms":241`, 1), []string{"ms is given twice"}},
		{"quarter", strings.Replace(goodQuarter, `240`, `null`, 1), []string{"ms must be"}},
		{"quarter", strings.Replace(goodQuarter, `240`, `"240"`, 1), []string{"ms must be"}},
		{"quarter", strings.Replace(goodQuarter, `240`, `1e999`, 1), []string{"ms must be"}},
		{"quarter", strings.Replace(goodQuarter, `240`, `1e200`, 1), []string{"ms must be"}},
		{"quarter", strings.Replace(goodQuarter, `240`, `NaN`, 1), []string{"not JSON"}},
		{"quarter", strings.Replace(goodQuarter, `160000`, `-1`, 1), []string{"kt must be"}},
		{"quarter", strings.Replace(goodQuarter, `"B"`, `"J"`, 1), []string{"road_class must be"}},
		{"quarter", strings.Replace(goodQuarter, `"B"`, `7`, 1), []string{"road_class must be"}},
		{"quarter", strings.Replace(goodQuarter, `"B"`, `"B","Gd":0`, 1), []string{"Gd must be"}},
		{"quarter", strings.Replace(goodQuarter, `980`, `0.000001`, 1), []string{"does not come to rest"}},

		{"car", `{}`, []string{"parameters is missing", "ay_points is missing", "ax_points is missing", "t is missing"}},
		{"car", `{"parameters":3}`, []string{"parameters must be an object"}},
		{"car", strings.Replace(goodCar, `"ms":960`, `"ms":-960`, 1), []string{"parameters.ms must be"}},
		{"car", strings.Replace(goodCar, `"bump_lo":1900`, `"bump_lo":0`, 1), []string{"parameters.df.bump_lo must be"}},
		{"car", strings.Replace(goodCar, `"bump_lo"`, `"bump"`, 1),
			[]string{"parameters.df.bump_lo is missing", "parameters.df.bump is unknown"}},
		{"car", strings.Replace(goodCar, `"K_arb_r":0`, `"K_arb_r":-1`, 1), []string{"parameters.K_arb_r must be"}},
		{"car", strings.Replace(goodCar, `"a":0.98`, `"a":0.98,"anti_f":9`, 1), []string{"parameters.anti_f must be"}},
		{"car", strings.Replace(goodCar, `"a":0.98`, `"a":0.98,"gravity_roll":1`, 1), []string{"gravity_roll must be true or false"}},
		{"car", strings.Replace(goodCar, `"h_s":0.54`, `"h_s":50,"gravity_roll":true`, 1), []string{"falls over"}},
		{"car", strings.Replace(goodCar, `[0.25,9]`, `[0.25]`, 1), []string{"ay_points[1] must be"}},
		{"car", strings.Replace(goodCar, `[0.25,9]`, `[0.25,null]`, 1), []string{"ay_points must be", "without null"}},
		{"car", strings.Replace(goodCar, `[0,0.5]`, `[0,null]`, 1), []string{"t must be", "without null"}},
		{"car", strings.Replace(goodCar, `[0.25,9]`, `[0.25,9e9]`, 1), []string{"ay_points[1] must be"}},
		{"car", strings.Replace(goodCar, `[0.25,9]`, `[-1,9]`, 1), []string{"ay_points[1] must not go back"}},
		{"car", strings.Replace(goodCar, `"ax_points":[[0,0]]`, `"ax_points":[]`, 1), []string{"ax_points is empty"}},
		{"car", strings.Replace(goodCar, `[0,0.5]`, `[0.5,0]`, 1), []string{"t[1] must rise"}},
		{"car", strings.Replace(goodCar, `[0,0.5]`, `[]`, 1), []string{"t is empty"}},
		{"car", strings.Replace(goodCar, `"muf":38`, `"muf":1e-9`, 1), []string{"too stiff or too light"}},

		{"window", `{}`, []string{"clicks is missing", "surface is missing"}},
		{"window", strings.Replace(goodWindow, goodDamper, ``, 1), []string{"clicks is empty"}},
		{"window", strings.Replace(goodWindow, goodDamper, `5`, 1), []string{"clicks[0] must be an object"}},
		{"window", strings.Replace(goodWindow, `"reb_knee":0.05`, `"reb_knee":0`, 1), []string{"clicks[0].reb_knee must be"}},
		{"window", strings.Replace(goodWindow, `smooth`, `icy`, 1), []string{`surface must be smooth, bumpy or rough, not "icy"`}},
		{"window", strings.Replace(goodWindow, `"relaxation":0.35,`, ``, 1), []string{"relaxation is missing"}},
		{"window", strings.Replace(goodWindow, `0.35`, `-0.35`, 1), []string{"relaxation must be"}},
		{"quarter", strings.Replace(goodQuarter, `"v":20`, `"v":20,"relaxation":null`, 1), []string{"relaxation must be"}},

		{"roughness", "0\n1\n", []string{"dx"}},
		{"engine", `{}`, []string{"quarter, car, window, roughness"}},
	} {
		answer, err := cases.Run(c.kind, []byte(c.question), 0)
		if err == nil {
			t.Errorf("%s %s has the answer %+v", c.kind, c.question, answer)
			continue
		}
		for _, name := range c.names {
			if !strings.Contains(err.Error(), name) {
				t.Errorf("%s %s: %q does not say %q", c.kind, c.question, err, name)
			}
		}
	}
}

func TestProfiles(t *testing.T) {
	for name, profile := range map[string]string{
		"with heading":           goodProfile,
		"without heading":        "0\n0.01\n0.02\n0.01\n",
		"windows line ends":      "\ufeffheight\r\n0\r\n0.01\r\n0.02\r\n0.01",
		"empty lines at the end": goodProfile + "\n\n",
	} {
		answer, err := cases.Run("roughness", []byte(profile), 0.25)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if r := answer.(*cases.Roughness); r.IRI <= 0 || len(r.Stretches) != 0 {
			t.Errorf("%s: %+v", name, r)
		}
	}
	for name, profile := range map[string]string{
		"nothing":     "",
		"heading":     "height\n",
		"word inside": "0\nhigh\n1\n",
		"NaN":         "NaN\n0\n1\n2\n",
		"infinite":    "0\nInf\n1\n",
		"two columns": "0\n1,2\n2\n",
		"vast":        "0\n1e300\n1\n",
	} {
		if answer, err := cases.Run("roughness", []byte(profile), 0.25); err == nil {
			t.Errorf("%s has the answer %+v", name, answer)
		}
	}
}

// The spectrum counts where both it and the class are given, and is enough.
func TestRoadByClassOrSpectrum(t *testing.T) {
	intensity := func(road string) float64 {
		t.Helper()
		answer, err := cases.Run("quarter", []byte(strings.Replace(goodQuarter, `"road_class":"B"`, road, 1)), 0)
		if err != nil {
			t.Fatal(err)
		}
		return answer.(*cases.Quarter).RMS.Intensity
	}
	class := intensity(`"road_class":"B"`)
	if spectrum := intensity(`"Gd":6.4e-5`); spectrum != class {
		t.Errorf("S = %g by spectrum, %g by class", spectrum, class)
	}
	if both := intensity(`"road_class":"B","Gd":1.28e-4`); both != 2*class {
		t.Errorf("S = %g for twice the spectrum, %g by class", both, class)
	}
}

// FuzzRun: whatever is asked, there is an answer that can be written as JSON, or
// an error, and never a panic.
func FuzzRun(f *testing.F) {
	for _, seed := range []struct{ kind, question string }{
		{"quarter", goodQuarter}, {"quarter", strings.Replace(goodQuarter, `"v":20`, `"v":20,"relaxation":0.35`, 1)}, {"car", goodCar}, {"window", goodWindow}, {"roughness", goodProfile},
		{"quarter", `{"ms":1e-9,"mu":1e12,"ks":1e-9,"cs":1e12,"kt":1e12,"Gd":1e12,"v":1e12}`},
		{"quarter", `{"ms":1e12,"mu":1e-9,"ks":1e12,"cs":1e-9,"kt":1e-9,"Gd":1e-9,"v":1e-9}`},
	} {
		f.Add(seed.kind, seed.question, 0.25)
	}
	f.Fuzz(func(t *testing.T, kind, question string, dx float64) {
		answer, err := cases.Run(kind, []byte(question), dx)
		if err != nil {
			return
		}
		if _, err := json.Marshal(answer); err != nil {
			t.Errorf("%s %s: %v", kind, question, err)
		}
	})
}

// Figures of all sizes, some at a time, the same every time.
func TestAnySizeOfFigure(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 10))
	sizes := []string{"0", "-1", "1e-9", "1e-6", "1e-3", "1", "1e3", "1e6", "1e9", "1e12", "1e13"}
	late := strings.Replace(goodQuarter, `"v":20`, `"v":20,"relaxation":0.35`, 1)
	for question, kind := range map[string]string{goodQuarter: "quarter", late: "quarter", goodWindow: "window"} {
		var members map[string]json.RawMessage
		if err := json.Unmarshal([]byte(question), &members); err != nil {
			t.Fatal(err)
		}
		names := slices.Sorted(maps.Keys(members))
		for range 200 {
			spoilt := maps.Clone(members)
			for range 1 + random.IntN(3) {
				spoilt[names[random.IntN(len(names))]] = json.RawMessage(sizes[random.IntN(len(sizes))])
			}
			checkAnswer(t, kind, spoilt)
		}
	}
}

func checkAnswer(t *testing.T, kind string, question map[string]json.RawMessage) {
	t.Helper()
	raw, err := json.Marshal(question)
	if err != nil {
		t.Fatal(err)
	}
	answer, err := cases.Run(kind, raw, 0)
	if err != nil {
		return
	}
	if _, err := json.Marshal(answer); err != nil {
		t.Errorf("%s %s: %v", kind, raw, err)
	}
}

// A profile is read whole.
func TestLongProfile(t *testing.T) {
	var profile strings.Builder
	for i := range 4001 {
		fmt.Fprintln(&profile, float64(i%2)*0.001)
	}
	answer, err := cases.Run("roughness", []byte(profile.String()), 0.25)
	if err != nil {
		t.Fatal(err)
	}
	if r := answer.(*cases.Roughness); len(r.Stretches) != 10 {
		t.Errorf("%d stretches of 1000 m", len(r.Stretches))
	}
}
