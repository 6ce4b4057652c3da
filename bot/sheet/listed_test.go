package sheet

import (
	"slices"
	"testing"
)

func TestListed(t *testing.T) {
	lines := []string{"one", "two", "three"}
	for most, want := range map[int][]string{2: {"one", "two", "And 1 more."}, 3: lines} {
		if s := Listed("Notes", lines, most, "And %d more.", "None."); s.Head != "Notes" || !slices.Equal(s.Points, want) {
			t.Errorf("of at most %d: %q", most, s.Points)
		}
	}
	if s := Listed("Notes", nil, 2, "And %d more.", "None."); !slices.Equal(s.Points, []string{"None."}) {
		t.Errorf("of none: %q", s.Points)
	}
}
