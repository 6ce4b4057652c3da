package tuning

import (
	"slices"
	"strings"
	"unicode"
)

// What a driver says of something broken rather than badly set, and what takes
// it back. From memory of how people write.
var (
	faultWords = []string{"knock", "knocks", "knocking", "clunk", "clunks", "clunking", "leak", "leaks", "leaking",
		"fluid", "vibration", "vibrates", "vibrating", "suddenly", "sudden"}
	pullWords = []string{"pull", "pulls", "pulled", "pulling"}
	denials   = []string{"no", "not", "without", "never", "neither", "nor"}
	cures     = []string{"gone", "fixed", "cured", "stopped", "repaired", "replaced"}
)

// Fault returns the word in a driver's notes that speaks of a fault, which is
// for the workshop and not for clicks; "" when there is none.
func Fault(notes string) string {
	words := strings.FieldsFunc(strings.ToLower(notes), func(r rune) bool { return !unicode.IsLetter(r) })
	for i, w := range words {
		switch {
		case takenBack(words, i):
		case w == "fluid" && i > 0 && words[i-1] == "brake": // a brake that leaks says so too
		case slices.Contains(faultWords, w):
			return w
		case slices.Contains(pullWords, w) && braking(words[i+1:]):
			return w + " under braking"
		}
	}
	return ""
}

// takenBack tells whether the word at i is denied before it or cured after it.
func takenBack(words []string, i int) bool {
	for k := i - 1; k >= max(0, i-4) && words[k] != "but"; k-- {
		if slices.Contains(denials, words[k]) {
			return true
		}
	}
	for k := i + 1; k < min(len(words), i+4) && words[k] != "not"; k++ {
		if slices.Contains(cures, words[k]) {
			return true
		}
	}
	return false
}

// braking tells whether the next words speak of braking.
func braking(words []string) bool {
	for k, w := range words[:min(len(words), 6)] {
		if w == "braking" || strings.HasPrefix(w, "brake") && k > 0 && slices.Contains([]string{"under", "on", "the"}, words[k-1]) {
			return true
		}
	}
	return false
}
