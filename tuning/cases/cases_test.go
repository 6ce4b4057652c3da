package cases_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"os"
	"slices"
	"testing"

	"detent/tuning/cases"
)

// The figures of testdata/cases.json were made with an independent scipy 1.10.1
// program by the same conventions; invented cars; not a published source.

func readCases(t *testing.T) map[string]any {
	t.Helper()
	raw, err := os.ReadFile("testdata/cases.json")
	if err != nil {
		t.Fatal(err)
	}
	var all map[string]any
	if err := json.Unmarshal(raw, &all); err != nil {
		t.Fatal(err)
	}
	return all
}

// tolerance is how far a figure may be off: a part of its size, or a little.
type tolerance struct{ part, little float64 }

var (
	linear = tolerance{part: 1e-6, little: 1e-12}
	// Two integrators of the independent program differ by some 1e-6 N where
	// the dampers are not linear, and by as much through the tyre rate, some
	// 1e-11, in heave and angles.
	history = tolerance{part: 1e-7, little: 1e-4}
	motion  = tolerance{part: 1e-6, little: 1e-9}
)

// figures asks the model and compares each figure the case holds. It returns
// the names compared.
func figures(t *testing.T, kind string, question, want map[string]any, within func(name string) tolerance) {
	t.Helper()
	raw, err := json.Marshal(question)
	if err != nil {
		t.Fatal(err)
	}
	answer, err := cases.Run(kind, raw, 0)
	if err != nil {
		t.Fatal(err)
	}
	if raw, err = json.Marshal(answer); err != nil {
		t.Fatal(err)
	}
	var got map[string]any
	if err := json.Unmarshal(raw, &got); err != nil {
		t.Fatal(err)
	}
	for _, name := range slices.Sorted(maps.Keys(want)) {
		compare(t, name, want[name], got[name], within(name))
	}
}

func compare(t *testing.T, name string, want, got any, within tolerance) {
	t.Helper()
	switch want := want.(type) {
	case map[string]any:
		inside, _ := got.(map[string]any)
		for _, key := range slices.Sorted(maps.Keys(want)) {
			compare(t, name+"."+key, want[key], inside[key], within)
		}
	case []any:
		list, _ := got.([]any)
		if len(list) != len(want) {
			t.Errorf("%s has %d entries, want %d", name, len(list), len(want))
			return
		}
		for i := range want {
			compare(t, fmt.Sprintf("%s[%d]", name, i), want[i], list[i], within)
		}
	case float64:
		v, ok := got.(float64)
		if !ok || math.Abs(v-want) > within.part*math.Abs(want)+within.little {
			t.Errorf("%s = %v, want %.12g", name, got, want)
		}
	case nil:
		if got != nil {
			t.Errorf("%s = %v, want nothing", name, got)
		}
	default:
		t.Errorf("%s: no comparison for %T", name, want)
	}
}

func object(v any, path ...string) map[string]any {
	for _, name := range path {
		v = v.(map[string]any)[name]
	}
	return v.(map[string]any)
}

// without returns a copy of a case without some of its members.
func without(m map[string]any, names ...string) map[string]any {
	rest := maps.Clone(m)
	for _, name := range names {
		delete(rest, name)
	}
	return rest
}

func TestQuarterCases(t *testing.T) {
	all := readCases(t)
	corners := map[string]map[string]any{}
	for name, c := range object(all, "quarter_cases") {
		corners[name] = object(c)
	}
	for name, c := range object(all, "cars") {
		corners[name+" front"] = object(c, "quarter_front")
		corners[name+" rear"] = object(c, "quarter_rear")
	}
	for name, c := range corners {
		t.Run(name, func(t *testing.T) {
			figures(t, "quarter", object(c, "inputs"), without(c, "inputs"), func(string) tolerance { return linear })
		})
	}
}

// L1 to L3: a tyre that answers late, computed for this program two ways in scipy
// (covariance and frequency integral); invented corners, no published source.
func TestLagCases(t *testing.T) {
	for name, c := range map[string]struct{ question, want map[string]any }{
		"L1": {corner(320, 37, 63000, 3142.9922048901108, 210000, 16e-6, 25, 0.35),
			map[string]any{"load_variation": 0.00500266302776599, "lag_loss": 0.00181892803264375}},
		"L2": {corner(330, 42, 24000, 2814.2494558940575, 210000, 64e-6, 40, 0.35),
			map[string]any{"load_variation": 0.0253528603899672, "lag_loss": 0.0083472395617648}},
		"L3": {corner(250, 35, 110000, 6817.257513105986, 260000, 16e-6, 40, 0.45),
			map[string]any{"load_variation": 0.0240257473040423, "lag_loss": 0.00643213121140181}},
	} {
		t.Run(name, func(t *testing.T) {
			figures(t, "quarter", c.question, c.want, func(string) tolerance { return tolerance{part: 1e-9} })
		})
	}
}

// corner is a question about one corner on a rough road.
func corner(ms, mu, ks, cs, kt, spectrum, v, relaxation float64) map[string]any {
	return map[string]any{"ms": ms, "mu": mu, "ks": ks, "cs": cs, "kt": kt, "Gd": spectrum, "v": v, "relaxation": relaxation}
}

// Without a relaxation length there is no answer about the lag.
func TestNoRelaxationNoLag(t *testing.T) {
	answer, err := cases.Run("quarter", []byte(goodQuarter), 0)
	if err != nil {
		t.Fatal(err)
	}
	if q := answer.(*cases.Quarter); q.Load != nil || q.Lag != nil {
		t.Errorf("load variation %v, lag %v", q.Load, q.Lag)
	}
}

func TestCarCases(t *testing.T) {
	for name, c := range object(readCases(t), "cars") {
		for _, ramp := range []string{"lateral_ramp", "longitudinal_ramp"} {
			t.Run(name+" "+ramp, func(t *testing.T) {
				run := object(c, ramp)
				question := map[string]any{"parameters": object(c, "parameters")}
				for _, key := range []string{"ay_points", "ax_points", "t"} {
					question[key] = run[key]
				}
				want := without(run, "ay_points", "ax_points", "t",
					"min_load", "integrator_disagreement_N", "end_vs_closed_form_N") // about the run itself
				want["static_loads"] = object(c, "derived")["static_loads"]
				figures(t, "car", question, want, func(name string) tolerance {
					switch name {
					case "static_loads", "steady_loads":
						return linear
					case "heave", "pitch", "roll", "front_share":
						return motion
					}
					return history
				})
			})
		}
	}
}
