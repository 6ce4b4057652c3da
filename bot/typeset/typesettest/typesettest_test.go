package typesettest

import (
	"testing"

	"codeberg.org/go-fonts/liberation/liberationsansregular"
)

// Every script is in its font, and no two of them look the same.
func TestScriptsHaveTheirOutlines(t *testing.T) {
	all := Outlines{Short: 1e-6, Within: 5e-3}
	ends := Outlines{Short: 1e-6, Within: 5e-3, Ends: true}
	for i, s := range Scripts {
		if s.Drawn == "" {
			continue
		}
		contours := all.Of(t, s, liberationsansregular.TTF)
		if len(contours) == 0 || len(ends.Of(t, s, liberationsansregular.TTF)) != len(contours) {
			t.Errorf("%s has %d contours", s.Name, len(contours))
		}
		for _, other := range Scripts[:i] {
			if all.Same(contours, all.Of(t, other, liberationsansregular.TTF)) {
				t.Errorf("%s looks like %s", s.Name, other.Name)
			}
		}
	}
}

func TestContoursAreTheSameButForRounding(t *testing.T) {
	o := Outlines{Short: 0.01, Within: 0.1}
	var a, b Contour
	for _, step := range [][2]float64{{1, 0}, {0.001, 0.001}, {0, 1}} {
		o.Add(&a, step[0], step[1])
		o.Add(&b, step[0]+0.02*step[0], step[1])
	}
	if len(a) != 2 || !o.Same([]Contour{a}, []Contour{b}) || o.Same([]Contour{a}, []Contour{a[:1]}) || o.Same([]Contour{a}, nil) {
		t.Errorf("%v and %v", a, b)
	}
}
