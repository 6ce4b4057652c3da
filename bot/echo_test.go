package bot

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

func TestEcho(t *testing.T) {
	for typed, want := range map[string]string{
		"fronnt": `"fronnt"`, "a\x1b[31mb": `"a[31mb"`, "a\u202eb\u2066c": `"abc"`, "two\n lines": `"two lines"`,
		strings.Repeat("x", 200): `"` + strings.Repeat("x", 59) + `…"`, "": `""`,
	} {
		if got := Echo(typed); got != want {
			t.Errorf("%q: %s, want %s", typed, got, want)
		}
	}
}

// Every refusal of a line repeats little of it, and nothing that steers the
// screen or the direction of the text.
func TestRefusalsEchoLittle(t *testing.T) {
	long := "\u202e" + strings.Repeat("Ω", 500) + "\x1b[2J"
	for _, typed := range []string{
		"/" + long, "/car " + long, "/car add " + long + ":x", "/try weather:" + long, "/try grip:" + long, "/try mass:" + long, "/try lap:" + long,
		"/try quiet:" + long, "/try after:" + long, "/try starts:" + long, "/try name:\"" + long + "\"x", "/try name:\"" + long,
		"/try name:x " + long, "/try " + long + ":\"never closed", long,
	} {
		say := refusalOf(typed)
		if n := strings.Count(say, "Ω"); say == "" || n > mostEcho {
			t.Errorf("%.20q: %d of the typed characters come back: %s", typed, n, say)
		}
		if i := strings.IndexFunc(say, func(r rune) bool { return !unicode.IsPrint(r) }); i >= 0 {
			r, _ := utf8.DecodeRuneInString(say[i:])
			t.Errorf("%.20q: %U comes back", typed, r)
		}
	}
}

// refusalOf is what is said of a line of a small catalogue, "" for nothing.
func refusalOf(typed string) string {
	line, err := ParseLine(typed)
	if err == nil {
		var command Command
		catalogue := NewCatalogue(small().Commands(), []Command{Declare(Command{Name: "try", Help: "Try"}, noAnswer[everything])})
		if command, err = catalogue.Find(line.Words); err == nil {
			var call Call
			call.Ask.Line = line
			_, err = command.answer(nil, call, nil)
		}
	}
	if err == nil {
		return ""
	}
	return Refuse(err).Title
}
