package typeset

import (
	"strings"

	"github.com/go-text/typesetting/shaping"
	"golang.org/x/image/math/fixed"
)

// Wrap shapes a text into lines no wider than so many ems; each "\n" begins a
// new one. A word that is wider than a line is broken.
func Wrap(text string, w Weight, width float64) []Line {
	s := borrow(w)
	defer s.giveBack()
	var lines []Line
	for paragraph := range strings.SplitSeq(text, "\n") {
		lines = append(lines, s.wrap(tame(paragraph), width)...)
	}
	return lines
}

func (s *setter) wrap(text []rune, width float64) []Line {
	runs := levelsOf(text)
	var pieces []shaping.Output
	for _, r := range runs {
		pieces = append(pieces, s.pieces(text, r)...)
	}
	if len(pieces) == 0 {
		return []Line{{}}
	}
	found, _ := s.wrapper.WrapParagraphF(shaping.WrapConfig{}, fixed.Int26_6(width*64*size), text, shaping.NewSliceIterator(pieces))
	var lines []Line
	from := 0
	for _, l := range found {
		end := l[len(l)-1].Runes
		to := end.Offset + end.Count
		lines = append(lines, s.line(text, runs, from, to))
		from = to
	}
	return lines
}
