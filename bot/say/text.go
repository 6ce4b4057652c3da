package say

import (
	"unicode"
	"unicode/utf8"

	"detent/tuning"
)

// Capital makes the first letter a capital.
func Capital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	if size == 0 {
		return s
	}
	return string(unicode.ToUpper(first)) + s[size:]
}

// Cautions are the sentences of cautions.
func Cautions(cautions []tuning.Caution) []string {
	words := make([]string, len(cautions))
	for i, c := range cautions {
		words[i] = string(c)
	}
	return words
}

// Small makes the first letter small.
func Small(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	if size == 0 {
		return s
	}
	return string(unicode.ToLower(first)) + s[size:]
}
