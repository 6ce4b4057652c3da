// Package phone measures what a message takes of a phone: lines of 44 columns,
// long ones wrapped, three buttons a line.
package phone

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/width"
)

// Size is how much room a message may take.
type Size int

// The sizes.
const (
	Answer     Size = iota // about one's own car
	Page                   // one car, or one line of the help
	List                   // a list, and what follows under More
	Why                    // a remedy explained
	FirstOfDay             // the first answer of a person's day, with all cautions
	Guide                  // the guide of an event
)

// rooms are the most lines and characters of each size.
var rooms = [...]struct{ lines, runes int }{
	Answer: {14, 700}, Page: {20, 900}, List: {24, 1200}, Why: {24, 1200}, FirstOfDay: {26, 1300}, Guide: {25, 1300},
}

// Room is the most lines and characters of a message of the size.
func (s Size) Room() (lines, runes int) { return rooms[s].lines, rooms[s].runes }

// Columns is how many columns a phone shows in a line.
const Columns = 44

// NameColumns is how much of a name an answer repeats.
const NameColumns = 20

// Row is how many buttons a phone shows in a line.
const Row = 3

// Measure counts the lines that a text and some buttons take on a phone, and
// the text's characters. Long lines wrap at words.
func Measure(text string, buttons int) (lines, runes int) {
	if text != "" {
		for line := range strings.SplitSeq(text, "\n") {
			lines += len(Wrap(line))
		}
	}
	return lines + (buttons+Row-1)/Row, utf8.RuneCountInString(text)
}

// Width is how many columns a text takes in one line: East Asian wide letters
// take two, marks above or below a letter none.
func Width(text string) int {
	columns := 0
	for _, r := range text {
		kind := width.LookupRune(r).Kind()
		switch {
		case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		case kind == width.EastAsianWide || kind == width.EastAsianFullwidth:
			columns += 2
		default:
			columns++
		}
	}
	return columns
}

// Clip shortens a text to some columns, and shows that it did.
func Clip(text string, columns int) string {
	if Width(text) <= columns {
		return text
	}
	short := ""
	for _, r := range text {
		if Width(short+string(r)) > columns-1 {
			break
		}
		short += string(r)
	}
	return strings.TrimRight(short, " ") + "…"
}
