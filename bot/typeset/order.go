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
// first letter outside isolates. An isolate is an object without a direction
// to the text around it, and a paragraph by itself inside (rules X5c and P2);
// isolates hold no others.
func levelsOf(text []rune) []levelRun {
	var around []rune // the text with one object for each isolate
	var at []int      // where each of them stands in the text
	for i := 0; i < len(text); i++ {
		at = append(at, i)
		if text[i] != firstStrongIsolate {
			around = append(around, text[i])
			continue
		}
		around = append(around, '\uFFFC')
		i += isolateLength(text[i:]) - 1
	}
	at = append(at, len(text))
	var runs []levelRun
	outer, _ := flatLevels(around)
	for _, run := range outer {
		for i := run.start; i < run.end; i++ {
			if text[at[i]] == firstStrongIsolate {
				runs = append(runs, isolateLevels(text, at[i], at[i+1], run.level)...)
				continue
			}
			if last := len(runs) - 1; i > run.start && text[at[i-1]] != firstStrongIsolate {
				runs[last].end = at[i+1]
				continue
			}
			runs = append(runs, levelRun{at[i], at[i+1], run.level})
		}
	}
	return runs
}

// isolateLength is how many characters from the first on are an isolate.
func isolateLength(text []rune) int {
	if i := slices.Index(text, popIsolate); i >= 0 {
		return i + 1
	}
	return len(text)
}

// isolateLevels are the runs of text[start:end], an isolate in text of a level.
func isolateLevels(text []rune, start, end int, around bidi.Level) []levelRun {
	inside := end
	if text[end-1] == popIsolate {
		inside--
	}
	runs := []levelRun{{start, start + 1, around}}
	found, base := flatLevels(text[start+1 : inside])
	deeper := around // of what runs as the isolate does: the next level of its direction
	if base == 0 {
		deeper += 2 - around%2
	} else {
		deeper += around % 2
	}
	for _, r := range found {
		runs = append(runs, levelRun{start + 1 + r.start, start + 1 + r.end, r.level + deeper})
	}
	if inside < end {
		runs = append(runs, levelRun{inside, end, around})
	}
	return runs
}

// flatLevels splits text without isolates. The levels are 0, 1 and 2 where the
// text runs from left to right (base 0), and 1 and 2 where it does not (base
// 1).
func flatLevels(text []rune) (runs []levelRun, base bidi.Level) {
	var paragraph bidi.Paragraph
	// A space at the end has the level of the paragraph (rule L1).
	found := paragraph.Segment(append(text[:len(text):len(text)], ' '), bidi.Neutral)
	base = found.Run(found.NumRuns()-1).Level % 2
	for i := range found.NumRuns() {
		run := found.Run(i)
		start, end := run.Start, min(run.End, len(text))
		if base == 1 || run.Level%2 == 1 {
			runs = append(runs, levelRun{start, end, run.Level})
			continue
		}
		// The library joins levels 0 and 2: a number that belongs to the
		// right-to-left text beside it with the left-to-right text.
		head, tail := start, end
		if run.Level == 2 {
			head = start + numberLength(text[start:end])
		}
		if i+1 < found.NumRuns() {
			tail = max(head, end-arabicNumberLength(text[start:end]))
		}
		runs = append(runs, levelRun{start, head, 2}, levelRun{head, tail, 0}, levelRun{tail, end, 2})
	}
	return slices.DeleteFunc(runs, func(r levelRun) bool { return r.start >= r.end }), base
}

// numberLength is how many characters from the first on are a number, with
// what stands between and after its digits.
func numberLength(text []rune) int {
	length := 0
	for i, r := range text {
		switch {
		case unicode.IsDigit(r), i > 0 && text[i-1] <= '9' && (r == '%' || r == '°'):
			length = i + 1
		case r != '.' && r != ',' && r != ':' && r != '/' && r != '+' && r != '-':
			return length
		}
	}
	return length
}

// arabicNumberLength is how many characters up to the last are a number in
// Arabic digits, which is at level 2 whatever stands before it.
func arabicNumberLength(text []rune) int {
	length := 0
	for i, r := range slices.Backward(text) {
		switch {
		case '\u0660' <= r && r <= '\u0669':
			length = len(text) - i
		case r != '.' && r != ',' && r != ':' && r != '\u066b' && r != '\u066c':
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
