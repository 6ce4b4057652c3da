package tuning

import "testing"

// From memory of how people write; no published source.
func TestFault(t *testing.T) {
	for notes, want := range map[string]string{
		"a knock at the rear": "knock", "Leaking, I think": "leaking", "no knock now": "", "pulls left under braking": "pulls under braking",
		"pull under braking": "pull under braking", "it pulled to the left on the brakes": "pulled under braking", "no leaks or knocks": "",
		"brake fluid changed, all good": "", "fluid on the rear damper": "fluid", "the knock is gone": "", "noise gone but a knock now": "knock",
		"pulled into the pits": "", "knock not fixed": "knock",
		"suddenly loose": "suddenly", "fine": "", "": "",

		"leaking time on the straight":               "",
		"it leaks half a second down the straight":   "",
		"leaking a few tenths everywhere":            "",
		"leaking":                                    "leaking",
		"rear left leaks":                            "leaks",
		"leaking time, and the damper is leaking":    "leaking",
		"the damper leaks every time I park":         "leaks",
		"it leaks all the time":                      "leaks",
		"oil on the damper":                          "oil",
		"there is oil all down the rear left damper": "oil",
		"oily shaft on the front right":              "oily",
		"no oil on the dampers":                      "",
		"changed the oil and the rear damper":        "",
		"oil temperature fine":                       "",
		"oil on the damper, wiped, replaced":         "oil",
		"fresh oil":                                  "",
	} {
		if got := Fault(notes); got != want {
			t.Errorf("Fault(%q) = %q, want %q", notes, got, want)
		}
	}
}
