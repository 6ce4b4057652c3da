package sheet

import "fmt"

// Listed is a section of some lines, at most so many of them. Rest says how many
// are left out: "And %d more." Where there is no line, instead stands alone.
func Listed(head string, lines []string, most int, rest, instead string) Section {
	if len(lines) == 0 {
		lines = []string{instead}
	}
	if more := len(lines) - most; more > 0 {
		lines = append(lines[:most:most], fmt.Sprintf(rest, more))
	}
	return Section{Head: head, Points: lines}
}
