package typeset

import (
	"slices"
	"unicode"

	"github.com/go-text/typesetting/bidi"
)

// levelRun is a part of a paragraph that runs in one direction: text[start:end]
// at an embedding level, odd from right to left.
type levelRun struct {
	start, end int
	level      bidi.Level
}

func (r levelRun) rightToLeft() bool { return r.level%2 == 1 }

// levelsOf splits a paragraph by direction. Its own direction is that of its
// first letter outside isolates.
func levelsOf(text []rune) []levelRun {
	var paragraph bidi.Paragraph
	// A space at the end has the level of the paragraph (rule L1).
	found := paragraph.Segment(append(text[:len(text):len(text)], ' '), bidi.Neutral)
	base := found.Run(found.NumRuns()-1).Level % 2
	var runs []levelRun
	for i := range found.NumRuns() {
		run := found.Run(i)
		start, end := run.Start, min(run.End, len(text))
		if number := numberLength(text[start:end]); base == 0 && run.Level == 2 && number > 0 {
			// The library joins a number that belongs to the right-to-left
			// text before it (level 2) with the left-to-right text behind it.
			runs = append(runs, levelRun{start, start + number, 2})
			start, run.Level = start+number, 0
		}
		if start < end {
			runs = append(runs, levelRun{start, end, run.Level})
		}
	}
	return runs
}

// numberLength is how many characters from the first on are a number, with
// what stands between and after its digits.
func numberLength(text []rune) int {
	length := 0
	for i, r := range text {
		switch {
		case unicode.IsDigit(r) || r == '%' || r == '°' || unicode.Is(unicode.Sc, r):
			length = i + 1
		case r != '.' && r != ',' && r != ':' && r != '/' && r != '+' && r != '-':
			return length
		}
	}
	return length
}

// visual puts the runs of a line in the order from left to right: rule L2 of
// Unicode Standard Annex #9.
func visual(runs []levelRun) []levelRun {
	runs = slices.Clone(runs)
	var highest bidi.Level
	for _, r := range runs {
		highest = max(highest, r.level)
	}
	for level := highest; level > 0; level-- {
		for i := 0; i < len(runs); i++ {
			from := i
			for i < len(runs) && runs[i].level >= level {
				i++
			}
			slices.Reverse(runs[from:i])
		}
	}
	return runs
}
