package say

import (
	"regexp"
	"strings"
	"unicode"
)

// Words are what somebody wrote to others, in quotes, as one paragraph: nothing
// that does not print or that turns the text around it, and nothing that a
// workspace would take for the number of a place or of people to call.
func Words(written string) string {
	var b strings.Builder
	for _, r := range strings.Join(strings.Fields(written), " ") {
		if unicode.IsPrint(r) || joins(r) {
			b.WriteRune(r)
		}
	}
	return "“" + callMark.ReplaceAllString(b.String(), "$1"+apart+"$2") + "”"
}

// joins tells whether a letter that does not print holds its neighbours
// together or apart, as some scripts and signs need it.
func joins(r rune) bool { return r == '\u200c' || r == '\u200d' }

// apart is an unseen character that keeps a mark from what would give it a
// meaning.
const apart = "\u2060"

// callMark is a mark before what it would call: a number, a name, or either
// written as a workspace does.
var callMark = regexp.MustCompile(`([#@])((?:[<&!\d]|everyone|here))`)
