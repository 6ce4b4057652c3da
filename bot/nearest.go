package bot

import (
	"fmt"
	"strings"

	"github.com/agnivade/levenshtein"
)

// nearest finds the nearest of the right words; ok is false when none is near.
func nearest(word string, right []string) (best string, ok bool) {
	least := 1 + len(word)/2
	for _, r := range right {
		if d := levenshtein.ComputeDistance(strings.ToLower(word), strings.ToLower(r)); d < least {
			best, least = r, d
		}
	}
	return best, best != ""
}

// didYouMean offers the nearest of the right words, " (did you mean x?)" or ""
// when none is near.
func didYouMean(word string, right []string) string {
	best, ok := nearest(word, right)
	if !ok {
		return ""
	}
	return fmt.Sprintf(" (did you mean %s?)", best)
}

// orList joins words as "a, b or c".
func orList(words []string) string { return list(words, "or") }

// andList joins words as "a, b and c".
func andList(words []string) string { return list(words, "and") }

func list(words []string, last string) string {
	switch len(words) {
	case 0:
		return "nothing"
	case 1:
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " " + last + " " + words[len(words)-1]
}
