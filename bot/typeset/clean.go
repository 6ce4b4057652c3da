package typeset

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Isolates keep the direction of a name from that of the sentence around it
// (Unicode Standard Annex #9, 2.4).
const (
	firstStrongIsolate = '\u2068'
	popIsolate         = '\u2069'
	zeroWidthNonJoiner = '\u200c'
	zeroWidthJoiner    = '\u200d'
)

// Readable is a name as it can be drawn: letters composed with their marks
// where Unicode has one character for both, without what steers the direction of
// the text around it, and without signs (emoji, mostly) that no font here has.
// ok is false where a letter, mark or number has no glyph, or where nothing is
// left: such a name must not be drawn at all, since a part of it would be
// another name.
func Readable(name string) (drawn string, ok bool) {
	s := borrow(Regular)
	defer s.giveBack()
	drawn = strings.TrimSpace(strings.Map(func(r rune) rune {
		if steers(r) || !s.draws(r) && !unicode.In(r, unicode.L, unicode.M, unicode.N) || emojiPart(r) {
			return -1
		}
		return r
	}, norm.NFC.String(name)))
	drawn = strings.Trim(drawn, string(zeroWidthJoiner)+string(zeroWidthNonJoiner))
	for _, r := range drawn {
		if !s.draws(r) {
			return "", false
		}
	}
	return drawn, drawn != ""
}

// Name is a name to set into a sentence or a title: readable and isolated; or
// the words that stand instead of a name that cannot be drawn.
func Name(name, instead string) string {
	drawn, ok := Readable(name)
	if !ok {
		return instead
	}
	return Isolate(drawn)
}

// Isolate sets a name into a sentence so that the directions of the two do not
// mix. A name that has no right-to-left letters stays as it is.
func Isolate(name string) string {
	name = Plain(name)
	if !strings.ContainsFunc(name, rightToLeft) {
		return name
	}
	return string(firstStrongIsolate) + name + string(popIsolate)
}

// Plain takes the marks of [Isolate] away.
func Plain(text string) string {
	return strings.Map(func(r rune) rune {
		if steers(r) {
			return -1
		}
		return r
	}, text)
}

// Sieve leaves out of a text what no font draws, and every control of direction
// but the marks of [Isolate].
func Sieve(text string) string {
	if !strings.ContainsFunc(text, func(r rune) bool { return r < ' ' && r != '\n' || r > '~' }) {
		return text
	}
	s := borrow(Regular)
	defer s.giveBack()
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == firstStrongIsolate || r == popIsolate:
			return r
		case steers(r) || emojiPart(r) || !s.draws(r):
			return -1
		}
		return r
	}, text)
}

// NeedsShaping tells whether a text has to be drawn by this package: one
// letter after the other from Liberation would not do.
func NeedsShaping(text string) bool {
	for _, r := range text {
		if r < 0x300 { // Latin, whatever its accents
			continue
		}
		if unicode.Is(unicode.M, r) || rightToLeft(r) || steers(r) || fileOf(r) != "" {
			return true
		}
	}
	return false
}

// tame is a text with no control of direction but the marks of [Isolate].
func tame(text string) []rune {
	return slices.DeleteFunc([]rune(text), func(r rune) bool {
		return steers(r) && r != firstStrongIsolate && r != popIsolate
	})
}

// steers tells whether a character only directs others: controls, and the
// marks, embeddings and isolates of direction.
func steers(r rune) bool {
	return r == '\n' || unicode.Is(unicode.Cc, r) || unicode.Is(unicode.Bidi_Control, r)
}

// emojiPart tells whether a character only varies the sign before it.
func emojiPart(r rune) bool { return unicode.Is(unicode.Variation_Selector, r) || r == '\u20e3' }

// joins tells whether a character has no shape of its own and changes those of
// its neighbours.
func joins(r rune) bool { return r == zeroWidthJoiner || r == zeroWidthNonJoiner }

// rightToLeft tells whether a character may make text run from right to left.
// The blocks are those that the Unicode Character Database sets aside for it
// (DerivedBidiClass.txt).
func rightToLeft(r rune) bool {
	return 0x0590 <= r && r <= 0x08FF || 0xFB1D <= r && r <= 0xFDFF || 0xFE70 <= r && r <= 0xFEFF ||
		0x10800 <= r && r <= 0x10FFF || 0x1E800 <= r && r <= 0x1EFFF
}
