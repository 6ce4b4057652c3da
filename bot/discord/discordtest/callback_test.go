package discordtest

import (
	"testing"
)

// TestDeferrals sees what a deferral may say, and what not.
func TestDeferrals(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		data obj
		good bool
	}{
		{nil, true}, {obj{"flags": 0}, true}, {obj{"flags": flagPrivate}, true},
		{obj{"content": "Wait"}, false}, {obj{"flags": flagV2}, false}, {obj{"embeds": list{obj{"title": "x"}}}, false},
	} {
		w := newHTTPClub(t)
		_, a := w.begin()
		if status, _ := w.answer(a, answerDeferred, test.data); status == 204 != test.good || len(w.Violations()) == 0 != test.good {
			t.Errorf("%v: %d, %v", test.data, status, w.Violations())
		}
	}
}
