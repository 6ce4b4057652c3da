package bot

import (
	"errors"
	"testing"

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
