package bot

import (
	"strings"
	"unicode"

	"detent/bot/say"
	"detent/tuning"
)

// unread is what is still to be read of a line.
type unread string

// trimmed drops the space at its beginning.
func (u unread) trimmed() unread { return unread(strings.TrimLeftFunc(string(u), unicode.IsSpace)) }

// word reads up to a space or a colon.
func (u unread) word() (word string, rest unread) {
	end := strings.IndexFunc(string(u), func(r rune) bool { return unicode.IsSpace(r) || r == ':' })
	if end < 0 {
		return string(u), ""
	}
	return string(u[:end]), u[end:]
}

// upToSpace is what stands before the first space.
func (u unread) upToSpace() string {
	if end := strings.IndexFunc(string(u), unicode.IsSpace); end >= 0 {
		return string(u[:end])
	}
	return string(u)
}

// behindColon drops the space that phones put behind a colon, when what follows
// is a value and not the next option.
func (u unread) behindColon() unread {
	trimmed := u.trimmed()
	name, rest := trimmed.word()
	if strings.HasPrefix(string(rest), ":") && strings.IndexFunc(name, unicode.IsLetter) == 0 {
		return u
	}
	return trimmed
}

// quotes begin and end a value: the straight one, and the curly ones that phones
// type.
const quotes = "\"“”„"

// value reads the value of the named option: up to a space, or between quotes,
// inside which \" and \\ stand for themselves. A straight quote ends what a
// straight one began, and a curly one what a curly one began.
func (u unread) value(name string) (value string, rest unread, err error) {
	r := []rune(u)
	isQuote := func(r rune) bool { return strings.ContainsRune(quotes, r) }
	if len(r) == 0 || !isQuote(r[0]) {
		value = u.upToSpace()
		return value, u[len(value):], nil
	}
	var b strings.Builder
	for i := 1; i < len(r); i++ {
		switch {
		case r[i] == '\\' && i+1 < len(r) && (isQuote(r[i+1]) || r[i+1] == '\\'):
			i++
			b.WriteRune(r[i])
		case isQuote(r[i]) && (r[0] == '"') == (r[i] == '"'):
			rest = unread(r[i+1:])
			if rest != "" && !unicode.IsSpace(r[i+1]) {
				return "", "", Problemf(tuning.Invalid, "Put a space after the closing quote of %s; a quote inside the value is typed \\\".", say.Legible(name))
			}
			return b.String(), rest, nil
		default:
			b.WriteRune(r[i])
		}
	}
	return "", "", Problemf(tuning.Invalid, "The quote after %s: is never closed: add one at the end of the value.", say.Legible(name))
}
