package discordtest

import (
	"testing"
)

// TestResumeChecksTheToken takes a session up again as somebody else.
func TestResumeChecksTheToken(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	w.identify(w.dial(), nil)
	w.Gateway.AwaitReady(1)
	w.mu.Lock()
	var id string
	for id = range w.Gateway.sessions {
	}
	w.mu.Unlock()
	w.Expect(TokenWrong)
	thief := w.dial()
	w.tell(thief, opResume, obj{"session_id": id, "token": "nobody", "seq": 1})
	if op, _ := w.hear(thief); op != -CloseTokenWrong || w.Gateway.Resumed() != 0 {
		t.Errorf("answered with %d, taken up %d times", op, w.Gateway.Resumed())
	}
	owner := w.dial()
	w.tell(owner, opResume, obj{"session_id": id, "token": w.Token(), "seq": 1})
	w.expect(owner, "RESUMED")
}
