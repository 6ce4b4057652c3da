package unit

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// Ambiguous is the error of a number with one comma and exactly three digits
// after it, which some read as decimals and some as thousands. Either reading
// can be typed back as it stands here.
type Ambiguous struct {
	Text      string // as it was typed
	Decimal   string // with a point: "1.250kg"
	Thousands string // without a comma: "1250kg"
}

func (a *Ambiguous) Error() string {
	return fmt.Sprintf("%s could mean %s or %s: type it without a comma", quote(a.Text), a.Decimal, a.Thousands)
}

// Number reads a number as people type it: "0.95", "0,95", "-2", "1.25e3". One
// comma is a decimal point, unless exactly three digits follow it, which is
// Ambiguous; but no thousands begin with 0 or with more than three digits. A
// number that is not finite is refused.
func Number(text string) (float64, error) {
	typed := strings.TrimSpace(text)
	number, suffix := split(typed)
	if suffix != "" {
		return 0, fmt.Errorf("%s is not a number", quote(text))
	}
	plain, thousands, ok := uncomma(number)
	switch {
	case !ok:
		return 0, fmt.Errorf("%s is not a number", quote(text))
	case thousands != "":
		return 0, &Ambiguous{Text: typed, Decimal: plain, Thousands: thousands}
	}
	v, err := strconv.ParseFloat(plain, 64)
	if err != nil {
		return 0, fmt.Errorf("%s is not a number", quote(text))
	}
	return v, nil
}

// uncomma writes a number with a point for its comma. Thousands is the other
// reading, "" where there is only one. ok is false for a comma that can be
// neither.
func uncomma(number string) (plain, thousands string, ok bool) {
	before, behind, comma := strings.Cut(number, ",")
	if !comma {
		return number, "", true
	}
	decimals, exponent := behind, ""
	if i := strings.IndexByte(behind, 'e'); i >= 0 {
		decimals, exponent = behind[:i], behind[i:]
	}
	if decimals == "" || strings.ContainsAny(decimals, ",.") || strings.Contains(before, ".") {
		return "", "", false
	}
	plain = before + "." + behind
	whole := strings.TrimLeft(before, "+-")
	if len(decimals) == 3 && exponent == "" && len(whole) >= 1 && len(whole) <= 3 && whole[0] != '0' {
		thousands = before + decimals
	}
	return plain, thousands, true
}

// split parts the number from the unit behind it.
func split(text string) (number, suffix string) {
	end := 0
	for i := range len(text) {
		switch c := text[i]; {
		case c >= '0' && c <= '9', c == '.', c == ',', (c == '-' || c == '+') && (i == 0 || text[i-1] == 'e'):
			end = i + 1
		case c == 'e' && i > 0 && i+1 < len(text) && strings.IndexByte("0123456789+-", text[i+1]) >= 0:
		default:
			return text[:end], text[end:]
		}
	}
	return text[:end], text[end:]
}

// squeeze takes out all space, puts a plain minus for the typographer's and
// makes letters small.
func squeeze(text string) string {
	return strings.ToLower(strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return -1
		case r == '\u2212':
			return '-'
		}
		return r
	}, text))
}

// mostEcho is how much of what was typed an error repeats, in characters.
const mostEcho = 60

// quote repeats what was typed inside quotes: not all of what is long, and
// nothing that does not print or that turns the text around it.
func quote(text string) string {
	printed := []rune(strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return -1
		}
		return r
	}, text))
	if len(printed) > mostEcho {
		printed = append(printed[:mostEcho-1], '…')
	}
	return strconv.Quote(string(printed))
}
