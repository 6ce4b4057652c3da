package model_test

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// The window's words fit a phone: 14 lines of 44 columns, where a longer line makes
// more.
func TestWindowFitsPhone(t *testing.T) {
	for _, surface := range []string{"smooth", "bumpy", "rough"} {
		for _, s := range []*shelf{hatch(t), coupe(t)} {
			r := s.answer(t, "/window surface:"+surface)
			lines := 0
			for _, line := range strings.Split(r.Title+"\n"+r.Text, "\n") {
				lines += (utf8.RuneCountInString(line) + 43) / 44
			}
			if n := utf8.RuneCountInString(r.Title + r.Text); lines > 14 || n > 700 {
				t.Errorf("%s of %s: %d lines, %d characters:\n%s\n%s", surface, s.of.Car.Name, lines, n, r.Title, r.Text)
			}
		}
	}
}
