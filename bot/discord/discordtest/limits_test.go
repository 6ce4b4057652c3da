package discordtest

import (
	"testing"
	"time"
)

// TestSlidingLimits sees limits count over any span of time, not over spans
// that begin anew.
func TestSlidingLimits(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	at := time.Now()
	w.clock = func() time.Time { return at }
	get := func(n int) (last int) {
		for range n {
			last, _ = w.ask("GET", "/users/@me", nil)
		}
		return last
	}
	get(1)
	w.Advance(900 * time.Millisecond)
	get(requestsASecond - 1)
	w.Advance(200 * time.Millisecond) // the first is over a second ago, the others are not
	if first := get(1); first != 200 {
		t.Errorf("within the limit: %d", first)
	}
	w.Expect(RateGlobal)
	if one := get(1); one != 429 {
		t.Errorf("one too many: %d", one)
	}

	w.Advance(time.Hour)
	for range channelMessages {
		w.post(obj{"content": "x"})
		w.Advance(time.Second)
	}
	if status, _ := w.post(obj{"content": "x"}); status != 200 {
		t.Errorf("the sixth after five seconds: %d", status)
	}
	other := w.alice.Guild.Channel("pits")
	if status, _ := w.ask("POST", "/channels/"+other.ID+"/messages", obj{"content": "x"}); status != 200 {
		t.Errorf("another channel: %d", status)
	}
}
