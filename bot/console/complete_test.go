package console

import (
	"slices"
	"testing"
)

func TestComplete(t *testing.T) {
	d, _, _ := desk(t)
	for line, want := range map[string]string{
		"sym":                       "symptom ",
		"/sym":                      "/symptom ",
		"car sh":                    "car show ",
		"symptom wha":               "symptom what:",
		"symptom what:unders":       "symptom what:understeer ",
		"symptom what:hops wea":     "symptom what:hops weather:",
		"damper fit axle:b":         "damper fit axle:both ",
		"nonsense x":                "",
		"symptom what:hops what:un": "",
		"log car:g":                 "log car:Grey ",
		"log car:\"Blue ha":         "log car:\"Blue hatch\" ",
		"log car:\"Bl":              "log car:\"Blue h",
		"log car:\"Blue hatch\" pa": "log car:\"Blue hatch\" page:",
	} {
		got, pos, _, ok := d.complete(t.Context(), line, len(line), '\t')
		if got != want || ok != (want != "") || pos != len(want) {
			t.Errorf("complete(%q) = %q, %d, %v, want %q", line, got, pos, ok, want)
		}
	}
	if _, _, _, ok := d.complete(t.Context(), "sym", 3, 'x'); ok {
		t.Error("another key completes")
	}
}

// Where more than one thing is meant, the key shows them.
func TestCompleteShowsTheChoices(t *testing.T) {
	d, _, _ := desk(t)
	for line, want := range map[string][]string{
		"car ":                   {"add", "list", "show", "edit", "main", "retire"},
		"log car:\"Blue h":       {`car:"Blue hatch"`, `car:"Blue hutch"`},
		"symptom what:n":         nil,
		"clicks set at:F":        {"at:FL", "at:FR", "at:front"},
		"baseline car:x weather": nil,
	} {
		if _, _, got, _ := d.complete(t.Context(), line, len(line), '\t'); !slices.Equal(got, want) {
			t.Errorf("%q shows %q, want %q", line, got, want)
		}
	}
	if got := inColumns([]string{"front", "rear", "all"}, 14); got != "front  rear   \nall" {
		t.Errorf("%q", got)
	}
}
