package discordtest

import (
	"fmt"
	"time"
)

// Reply is what a person sees in answer to one thing that they did. Its methods
// look at the present state, which later edits change.
type Reply struct {
	p *Platform
	i *interaction
}

// Wait waits until the answer is there, the deferred one too, and fails the
// test when the person is told instead that the bot did not respond.
func (r *Reply) Wait() *Reply {
	r.p.tb.Helper()
	r.p.await("an answer to the "+r.i.String(), func() bool { return r.i.settled() || r.p.lost(r.i) })
	r.p.mu.Lock()
	defer r.p.mu.Unlock()
	if !r.i.settled() {
		r.p.tb.Fatalf("discordtest: the bot did not respond to the %s: %s", r.i, r.p.reason(r.i))
	}
	return r
}

// WaitFirst waits until there is a first answer, be it only "thinking".
func (r *Reply) WaitFirst() *Reply {
	r.p.tb.Helper()
	r.p.await("a first answer to the "+r.i.String(), func() bool { return r.i.answered != unanswered })
	return r
}

// WaitLost waits until the person is told that the bot did not respond, and
// says why it is so.
func (r *Reply) WaitLost() string {
	r.p.tb.Helper()
	r.p.await("the failure of the "+r.i.String(), func() bool { return r.p.lost(r.i) })
	r.p.mu.Lock()
	defer r.p.mu.Unlock()
	return r.p.reason(r.i)
}

// Settle waits until there is an answer, or the person is told that the bot did
// not respond; then it says why, and "" otherwise. It is for runs in which
// either may happen.
func (r *Reply) Settle() (why string) {
	r.p.tb.Helper()
	r.p.await("the end of the "+r.i.String(), func() bool { return r.i.settled() || r.p.lost(r.i) })
	return look(r, func(i *interaction) string {
		if i.settled() {
			return ""
		}
		return r.p.reason(i)
	})
}

// Until waits until the message that answers is as the test wants it.
func (r *Reply) Until(what string, holds func(Message) bool) *Reply {
	r.p.tb.Helper()
	r.p.await(what, func() bool { return r.i.original != nil && holds(r.p.snapshot(r.i.original)) })
	return r
}

func (p *Platform) reason(i *interaction) string {
	if i.failure != "" {
		return i.failure
	}
	return fmt.Sprintf("no first answer within %v", p.deadline)
}

// look reads the interaction under the lock.
func look[T any](r *Reply, read func(*interaction) T) T {
	r.p.mu.Lock()
	defer r.p.mu.Unlock()
	return read(r.i)
}

// Message is the message that answers: a new one, the one whose button was
// pressed when that was changed, or the one that came in the place of a deferral
// that was deleted. It is the zero Message where a form or choices answer.
func (r *Reply) Message() Message {
	return look(r, func(i *interaction) (m Message) {
		switch {
		case i.original == nil:
		case i.original.deleted && i.original.flags&flagLoading != 0 && len(i.followUps) > 0:
			m = r.p.snapshot(i.followUps[0])
		default:
			m = r.p.snapshot(i.original)
		}
		return m
	})
}

// Content is the message's plain text.
func (r *Reply) Content() string { return r.Message().Content }

// Text is everything that there is to read.
func (r *Reply) Text() string { return r.Message().Text() }

// Embeds are the message's framed blocks.
func (r *Reply) Embeds() []Embed { return r.Message().Embeds }

// Components are the message's rows.
func (r *Reply) Components() []Component { return r.Message().Components }

// Files are the message's attachments, with their bytes and alt texts.
func (r *Reply) Files() []File { return r.Message().Files }

// Buttons are the labels that can be pressed.
func (r *Reply) Buttons() []string { return r.Message().Buttons() }

// Private tells whether only the person sees the answer.
func (r *Reply) Private() bool { return r.Message().Private }

// Deferred tells whether the bot first said that it was thinking.
func (r *Reply) Deferred() bool {
	return look(r, func(i *interaction) bool { return i.answered == answerDeferred || i.answered == answerUpdateLater })
}

// Updated tells whether the answer changed the message that was pressed on.
func (r *Reply) Updated() bool {
	return look(r, func(i *interaction) bool { return i.answered == answerUpdate || i.answered == answerUpdateLater })
}

// Choices are what autocompletion offers.
func (r *Reply) Choices() []Choice {
	return look(r, func(i *interaction) []Choice { return i.choices })
}

// FollowUps are the further messages.
func (r *Reply) FollowUps() []Message {
	return look(r, func(i *interaction) (found []Message) {
		for _, m := range i.followUps {
			found = append(found, r.p.snapshot(m))
		}
		return found
	})
}

// AwaitFollowUps waits until there are n further messages, and lists them.
func (r *Reply) AwaitFollowUps(n int) []Message {
	r.p.tb.Helper()
	r.p.await(fmt.Sprintf("%d follow-ups to the %s", n, r.i), func() bool { return len(r.i.followUps) >= n })
	return r.FollowUps()
}

// FirstAnswerAfter is how long the person waited for any sign of life.
func (r *Reply) FirstAnswerAfter() time.Duration {
	return look(r, func(i *interaction) time.Duration { return i.after })
}

// Press presses a button of the answer, as the person who asked, and waits.
func (r *Reply) Press(button string) *Reply {
	r.p.tb.Helper()
	return r.i.by.Press(r.Message(), button)
}

// Choose picks in a select of the answer, as the person who asked, and waits.
func (r *Reply) Choose(menu string, picks ...string) *Reply {
	r.p.tb.Helper()
	return r.i.by.Choose(r.Message(), menu, picks...)
}

// Press presses a button of the message as the person that it is for, and waits.
func (m Message) Press(button string) *Reply {
	m.p.tb.Helper()
	if m.owner == nil {
		m.p.tb.Fatal("discordtest: the message is for everybody: say who presses, with Member.Press")
	}
	return m.owner.Press(m, button)
}

// FirstAnswers lists how long each answered interaction waited for its first answer.
func (p *Platform) FirstAnswers() []time.Duration {
	p.mu.Lock()
	defer p.mu.Unlock()
	var waits []time.Duration
	for _, i := range p.interactions {
		if i.answered != unanswered {
			waits = append(waits, i.after)
		}
	}
	return waits
}
