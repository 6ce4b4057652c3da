package bot

import (
	"errors"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"detent/tuning"
)

func TestRefusals(t *testing.T) {
	const unread = "I could not read that: start with a slash, for example /help."
	for name, c := range map[string]struct{ got, want Reply }{
		"a problem": {Refuse(Problemf(tuning.Limit, "Too long.")),
			Reply{Title: "Too long.", Private: true, Problem: &Trouble{Kind: tuning.Limit, Say: "Too long."}}},
		"another error": {Refuse(errors.New("x")), Reply{Title: unread, Private: true, Problem: &Trouble{Kind: tuning.Invalid, Say: unread}}},
		"an apology": {Apologise("Sorry (r1).", "r1"),
			Reply{Title: "Sorry (r1).", Private: true, Problem: &Trouble{Kind: tuning.Internal, Say: "Sorry (r1).", Ref: "r1"}}},
		"a fresh answer": {Outdated("Out of date.", Reply{Title: "Do this", Notes: []string{"A note."}}),
			Reply{Title: "Out of date.", Text: "Do this.", Notes: []string{"A note."}, Problem: &Trouble{Kind: tuning.Conflict, Say: "Out of date."}}},
	} {
		if diff := cmp.Diff(c.want, c.got); diff != "" {
			t.Errorf("%s: %s", name, diff)
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
		if n := strings.Count(say, "Ω"); say == "" || n > 60 {
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
		if command, err = catalogue.Find(line); err == nil {
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
