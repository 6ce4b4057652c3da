package spelling

import "testing"

func TestBare(t *testing.T) {
	for typed, want := range map[string]string{
		"from-hard": "hard", "on-entry": "entry", "corner-exit": "exit", "in-the-mid": "mid", "mid-corner": "mid",
		"2-way": "2", "2way": "2", "hard": "hard", "way": "", "from-": "", "": "",
	} {
		if got := Bare(typed); got != want {
			t.Errorf("%q is read as %q, want %q", typed, got, want)
		}
	}
}

func TestMeant(t *testing.T) {
	for typed, want := range map[string]string{"compression": "bump", "pushes-wide": "understeer", "hop": "hops", "loose": "oversteer", "lf": "FL", "4wd": "four", "bump": ""} {
		if got, ok := Meant(typed); got != want || ok != (want != "") {
			t.Errorf("%q stands for %q, %v, want %q", typed, got, ok, want)
		}
	}
}
