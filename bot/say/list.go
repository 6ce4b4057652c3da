package say

import (
	"fmt"
	"strings"
)

// Count says a number of things: "1 remedy", "2 remedies".
func Count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// OneOf joins words as "a, b or c".
func OneOf(words []string) string { return list(words, "or") }

// AllOf joins words as "a, b and c".
func AllOf(words []string) string { return list(words, "and") }

func list(words []string, last string) string {
	switch len(words) {
	case 0:
		return "nothing"
	case 1:
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " " + last + " " + words[len(words)-1]
}
