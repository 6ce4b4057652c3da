package unit

import (
	"strconv"
	"strings"
)

// Show prints an SI value of a dimension in metric or imperial units, so that
// Read reads it back to within half of the last decimal. An unknown dimension
// prints the bare number.
func Show(d Dimension, v float64, imperial bool) string {
	row, known := dimensionOf(d)
	if !known {
		return strconv.FormatFloat(v, 'g', -1, 64)
	}
	s := row.shown[system(imperial)]
	return trim(s.fromSI(v), s.decimals) + s.print
}

// Typed is Show in metric units as it is typed: without space, so that it can
// stand as the value of an option.
func Typed(d Dimension, v float64) string { return strings.ReplaceAll(Show(d, v, false), " ", "") }

// trim prints with at most so many decimals, no trailing zeros and no negative
// zero.
func trim(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}
