package tuning

import (
	"slices"
	"strings"
	"unicode"
)

// Words for something broken rather than badly set, and words that take those
// back.
// From memory of how people write.
var (
	faultWords = []string{"knock", "knocks", "knocking", "clunk", "clunks", "clunking",
		"fluid", "vibration", "vibrates", "vibrating", "suddenly", "sudden"}
	leakWords = []string{"leak", "leaks", "leaked", "leaking"}
	notLeaked = []string{"time", "tenth", "tenths", "hundredths", "second", "seconds", "speed", "pace"}
	occasions = []string{"every", "each", "this", "that", "last", "any", "the"}
	oilWords  = []string{"oil", "oily"}
	oiled     = []string{"damper", "dampers", "shock", "shocks", "strut", "struts", "shaft", "rod", "body", "seal", "wheel", "tyre", "brake", "disc"}
	outside   = []string{"on", "from", "around", "under", "over", "down", "along", "below", "all"}
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
		case slices.Contains(leakWords, w) && !timeIsLost(words[i+1:]):
			return w
		case slices.Contains(oilWords, w) && oilIsOut(w, words[i+1:]):
			return w
		case slices.Contains(pullWords, w) && speaksOfBraking(words[i+1:]):
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

// speaksOfBraking tells whether the next words speak of braking.
func speaksOfBraking(words []string) bool {
	for k, w := range words[:min(len(words), 6)] {
		if w == "braking" || strings.HasPrefix(w, "brake") && k > 0 && slices.Contains([]string{"under", "on", "the"}, words[k-1]) {
			return true
		}
	}
	return false
}

// timeIsLost tells whether what follows a leak is time rather than a fluid:
// "leaking a few tenths on the straight", but not "leaks every time".
func timeIsLost(next []string) bool {
	for i, w := range next[:min(len(next), 4)] {
		if slices.Contains(notLeaked, w) && (i == 0 || !slices.Contains(occasions, next[i-1])) {
			return true
		}
	}
	return false
}

// oilIsOut tells whether the words after oil say that it is where it should not
// be: "oil all down the rear damper", "oily shaft".
func oilIsOut(oil string, next []string) bool {
	if oil == "oil" && (len(next) == 0 || !slices.Contains(outside, next[0])) {
		return false
	}
	return slices.ContainsFunc(next[:min(len(next), 6)], func(w string) bool { return slices.Contains(oiled, w) })
}
