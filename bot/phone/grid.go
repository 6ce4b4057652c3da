package phone

import (
	"strings"
	"unicode/utf8"
)

// Grid writes rows of as many cells each for a fixed-width face, a line a row:
// the first column to the left, the others, which are numbers, to the right.
// There is one row at least.
func Grid(rows [][]string) string {
	widths := make([]int, len(rows[0]))
	for _, row := range rows {
		for i, cell := range row {
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	var b strings.Builder
	for _, row := range rows {
		for i, cell := range row {
			pad := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cell))
			if i == 0 {
				b.WriteString(cell + pad)
			} else {
				b.WriteString("  " + pad + cell)
			}
		}
		b.WriteByte('\n')
	}
	return b.String()
}
