package bot

import (
	"fmt"
	"strings"

	"github.com/agnivade/levenshtein"
)

// Nearest finds the nearest of the right words; ok is false when none is near.
func Nearest(word string, right []string) (best string, ok bool) {
	least := 1 + len(word)/2
	for _, r := range right {
		if d := levenshtein.ComputeDistance(strings.ToLower(word), strings.ToLower(r)); d < least {
			best, least = r, d
		}
	}
	return best, best != ""
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
