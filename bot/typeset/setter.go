package typeset

import (
	"slices"
	"sync"
	"unicode"

	"github.com/go-text/typesetting/di"
	"github.com/go-text/typesetting/language"
	"github.com/go-text/typesetting/shaping"
	"golang.org/x/image/math/fixed"
)

// setter shapes text in one weight. It keeps caches and belongs to one user at
// a time.
type setter struct {
	weight   Weight
	faces    *faces
	shaper   shaping.HarfbuzzShaper
	segments shaping.Segmenter
	wrapper  shaping.LineWrapper
}

// setters are those that nobody uses at the moment, by weight.
var setters [2]sync.Pool

func borrow(w Weight) *setter {
	if s, ok := setters[w].Get().(*setter); ok {
		return s
	}
	return &setter{weight: w, faces: newFaces(w)}
}

func (s *setter) giveBack() { setters[s.weight].Put(s) }

// draws tells whether a character can be drawn, or needs no drawing.
func (s *setter) draws(r rune) bool {
	_, ok := s.faces.find(r)
	return ok || joins(r) || unicode.IsSpace(r)
}

// size is what lengths are shaped at, so that a unit is a 64,000th of an em.
const size = 1000

// ems is a length of the shaper's in ems.
func ems(length fixed.Int26_6) float64 { return float64(length) / (64 * size) }

// emboldening is the stroke that makes regular letters bold, in ems: less than
// the stems of bold Liberation Sans are broader, since dense letters fill up.
const emboldening = 0.025

// pieces shapes a run script by script and font by font, in the order of
// reading.
func (s *setter) pieces(text []rune, r levelRun) []shaping.Output {
	direction := di.DirectionLTR
	if r.rightToLeft() {
		direction = di.DirectionRTL
	}
	inputs := s.segments.Split(shaping.Input{
		Text: text, RunStart: r.start, RunEnd: r.end,
		Direction: direction, Size: fixed.I(size), Language: language.NewLanguage("en"),
	}, s.faces)
	outputs := make([]shaping.Output, len(inputs))
	for i, input := range inputs {
		input.Direction = direction // as the whole paragraph has it, not the run by itself
		outputs[i] = s.shaper.Shape(input)
		s.narrowSpaces(text, &outputs[i])
	}
	return outputs
}

// narrowSpaces makes spaces as wide as Liberation's: the font of Han has no
// space of its own and would leave the width of a letter.
func (s *setter) narrowSpaces(text []rune, piece *shaping.Output) {
	space, ok := s.faces.main.NominalGlyph(' ')
	if !ok || piece.Face == s.faces.main {
		return
	}
	wide := fixed.Int26_6(s.faces.main.HorizontalAdvance(space) / float32(s.faces.main.Upem()) * 64 * size)
	for i, g := range piece.Glyphs {
		if text[g.TextIndex()] == ' ' && g.RunesCount() == 1 {
			piece.Glyphs[i].Advance = wide
		}
	}
	piece.RecomputeAdvance()
}

// line shapes text[from:to] of a paragraph with its levels.
func (s *setter) line(text []rune, runs []levelRun, from, to int) Line {
	for from < to && unicode.IsSpace(text[to-1]) {
		to--
	}
	line := Line{text: Plain(string(text[from:to]))}
	for _, run := range visual(clip(runs, from, to)) {
		pieces := s.pieces(text, run)
		if run.rightToLeft() {
			slices.Reverse(pieces)
		}
		for _, p := range pieces {
			s.append(&line, text, p, run.rightToLeft())
		}
	}
	return line
}

// clip is the runs of text[from:to].
func clip(runs []levelRun, from, to int) []levelRun {
	var clipped []levelRun
	for _, r := range runs {
		r.start, r.end = max(r.start, from), min(r.end, to)
		if r.start < r.end {
			clipped = append(clipped, r)
		}
	}
	return clipped
}

// append puts a shaped piece at the right end of a line.
func (s *setter) append(line *Line, text []rune, piece shaping.Output, rightToLeft bool) {
	bolder := 0.0
	if s.weight == Bold && piece.Face != s.faces.main {
		bolder = emboldening
	}
	last := -1
	for _, g := range piece.Glyphs {
		if first := g.TextIndex(); first != last {
			last = first
			line.Clusters = append(line.Clusters, Cluster{
				Text: Plain(string(text[first : first+g.RunesCount()])), X: line.Width, RightToLeft: rightToLeft})
		}
		c := &line.Clusters[len(line.Clusters)-1]
		c.Glyphs = append(c.Glyphs, Glyph{
			X: line.Width + ems(g.XOffset), Y: ems(g.YOffset), ID: uint32(g.GlyphID), Embolden: bolder, face: piece.Face})
		c.Width += ems(g.Advance)
		line.Width += ems(g.Advance)
	}
}
