package spelling

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"
)

// Nearest finds the nearest of the right words; ok is false when none is nearer
// than a third of the word, counted in characters as slips does. A word is never
// taken for a right word when it is as near to the opposite of that: "rear" is no
// slip for "front".
func Nearest(word string, right []string) (best string, ok bool) {
	word = strings.ToLower(word)
	least := utf8.RuneCountInString(word)/3 + 1
	for _, r := range right {
		small := strings.ToLower(r)
		if apart := utf8.RuneCountInString(small) - utf8.RuneCountInString(word); max(apart, -apart) >= least {
			continue
		}
		d := slips(word, small)
		if d < least && !nearerToOpposite(word, small, d) {
			best, least = r, d
		}
	}
	return best, best != ""
}

// slips counts the characters that were left out, added, mistaken or, once,
// swapped with their neighbour.
func slips(typed, meant string) int {
	least := levenshtein.ComputeDistance(typed, meant)
	swapped := []rune(typed)
	for i := 1; i < len(swapped) && least > 1; i++ {
		swapped[i-1], swapped[i] = swapped[i], swapped[i-1]
		least = min(least, 1+levenshtein.ComputeDistance(string(swapped), meant))
		swapped[i-1], swapped[i] = swapped[i], swapped[i-1]
	}
	return least
}

// opposites are pairs of words that mean the reverse of each other.
var opposites = [][2]string{
	{"front", "rear"}, {"stiffer", "softer"}, {"understeer", "oversteer"}, {"hard", "soft"}, {"bump", "rebound"},
}

// nearerToOpposite tells whether a word is at least as near to the opposite of
// a right word as to the right word, whose distance is given.
func nearerToOpposite(word, right string, distance int) bool {
	parts := strings.FieldsFunc(right, func(r rune) bool { return r == '-' || r == ' ' })
	for _, part := range parts {
		for _, pair := range opposites {
			for i, side := range pair {
				if part != side {
					continue
				}
				opposite := strings.Replace(right, part, pair[1-i], 1)
				if slips(word, opposite) <= distance {
					return true
				}
			}
		}
	}
	return false
}

// DidYouMean offers the nearest of the right words, " (did you mean x?)" or ""
// when none is near.
func DidYouMean(word string, right []string) string {
	best, ok := Nearest(word, right)
	if !ok {
		return ""
	}
	return fmt.Sprintf(" (did you mean %s?)", best)
}
