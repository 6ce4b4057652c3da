package gateway

import (
	"testing"
)

// TestStrangeGreetings are a HELLO and a READY without what they must have: the
// library would not survive the first.
func TestStrangeGreetings(t *testing.T) {
	t.Parallel()
	for _, f := range []frame{
		{Op: opHello, Data: []byte(`null`)}, {Op: opHello, Data: []byte(`{"heartbeat_interval":0}`)},
		{Op: opEvent, Type: readyEvent, Data: []byte(`null`)}, {Op: opEvent, Type: readyEvent, Data: []byte(`{}`)},
	} {
		v := &wire{s: quiet().newSession(nobody{})}
		if _, pass, err := v.sift(f); pass || err == nil {
			t.Errorf("%s is passed on: %v, %v", f.text(), pass, err)
		}
	}
}
