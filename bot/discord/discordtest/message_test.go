package discordtest

import (
	"slices"
	"testing"
)

// TestMentionsAreClosed sees every kind of message held to say whom it calls.
func TestMentionsAreClosed(t *testing.T) {
	t.Parallel()
	for _, mentions := range []any{nil, obj{}, obj{"parse": nil}, obj{"parse": list{"users"}}, obj{"parse": list{"everyone"}}} {
		w := newHTTPClub(t)
		w.Expect(MentionsOpen)
		open := obj{"content": "@everyone", "allowed_mentions": mentions}
		_, a := w.begin()
		first, _ := w.answer(a, answerMessage, open)
		w.answer(a, answerMessage, obj{"content": "x"})
		follow, _ := w.follow(a, open)
		edit, _ := w.ask("PATCH", "/webhooks/"+w.app+"/"+a.Token+"/messages/@original", open)
		post, _ := w.post(open)
		if got := []int{first, follow, edit, post}; !slices.Equal(got, []int{400, 400, 400, 400}) {
			t.Errorf("%v: %v", mentions, got)
		}
	}
}
