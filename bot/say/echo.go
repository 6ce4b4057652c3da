package say

import (
	"strconv"
	"strings"
	"unicode"
)

// Echo repeats what was typed in a refusal, in quotes: not all of what is long,
// and nothing that does not print or that turns the text around it.
func Echo(typed string) string { return strconv.Quote(Legible(typed)) }

// Legible is Echo without the quotes.
func Legible(typed string) string {
	const mostEcho = 60 // characters of what was typed
	var kept []rune
	for _, r := range strings.Join(strings.Fields(typed), " ") {
		switch {
		case !unicode.IsPrint(r):
		case len(kept) == mostEcho-1:
			return string(kept) + "…"
		default:
			kept = append(kept, r)
		}
	}
	return string(kept)
}
