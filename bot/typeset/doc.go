// Package typeset shapes text in the scripts that members write names in, for
// the pictures and the printable pages: letters joined and marks placed as
// each script wants, right-to-left parts in their order, a font for every
// script. Lengths are in ems; multiply them by the size of the type.
//
// The order of mixed directions is that of the Unicode Bidirectional Algorithm
// (Unicode Standard Annex #9), the places to break a line those of Annex #14,
// both as the shaping library has them.
package typeset
