package console

import (
	"io"
	"strings"
	"testing"
)

// TestCutLineIsNotAnswered: what the editor dropped from the end of a line may
// have been what mattered.
func TestCutLineIsNotAnswered(t *testing.T) {
	typed := []string{strings.Repeat("é", longestTyped-1), strings.Repeat("é", longestTyped), "/log", strings.Repeat("x", longestTyped)}
	var told strings.Builder
	read := refusingCut(func() (string, error) {
		line := typed[0]
		typed = typed[1:]
		if len(typed) == 0 {
			return line, io.EOF
		}
		return line, nil
	}, &told)
	if line, err := read(); err != nil || len([]rune(line)) != longestTyped-1 {
		t.Errorf("%d characters, %v", len([]rune(line)), err)
	}
	if line, err := read(); err != nil || line != "/log" || !strings.HasPrefix(told.String(), "That line is too long to type") {
		t.Errorf("%q, %v, told %q", line, err, told.String())
	}
	if line, err := read(); err != io.EOF || line != "" {
		t.Errorf("%q, %v", line, err)
	}
}
