package phone

import (
	"slices"
	"strings"
	"testing"
)

func TestWrap(t *testing.T) {
	full := strings.Repeat("a", Columns)
	for line, want := range map[string][]string{
		"":                        {""},
		"short":                   {"short"},
		"  two spaces before":     {"  two spaces before"},
		full + " b":               {full, "b"},
		full + "b":                {full, "b"},
		"c " + full + "b":         {"c", full, "b"},
		full[1:] + " bb":          {full[1:], "bb"},
		full[2:] + " b  cc":       {full[2:] + " b", "cc"},
		strings.Repeat("青", 23):   {strings.Repeat("青", 22), "青"},
		full[1:] + "\u0301a b":    {full[1:] + "\u0301a", "b"},
		strings.Repeat("dd ", 15): {strings.TrimSpace(strings.Repeat("dd ", 15))},
	} {
		if got := Wrap(line); !slices.Equal(got, want) {
			t.Errorf("%q becomes %q, want %q", line, got, want)
		}
	}
}
