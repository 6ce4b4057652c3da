package bot

import (
	"strings"

	"detent/tuning"
)

// Refuse is the reply that a Problem is told with. Any other error is taken for
// a line that could not be read.
func Refuse(err error) Reply {
	say := "I could not read that: start with a slash, for example /help."
	kind := tuning.Invalid
	reply := Reply{Private: true}
	if p, ok := ProblemOf(err); ok {
		say, kind, reply.Actions = p.Say, p.Kind, p.Actions
	}
	return reply.refusing(kind, say, "")
}

// ErrCoachingEnded answers a repeated request whose first reply showed a
// student who is no longer the coach's.
var ErrCoachingEnded = &Problem{Kind: tuning.Forbidden, Say: "That showed a student whom you no longer coach, so it is not shown again."}

// Apologise is the reply to what is ours to mend. The reference stands in the
// log beside the cause.
func Apologise(say, ref string) Reply {
	return Reply{Private: true}.refusing(tuning.Internal, say, ref)
}

// Outdated refuses a request that no longer fits the record, with a fresh
// answer to the same question below the refusal.
func Outdated(say string, fresh Reply) Reply {
	fresh.Text = strings.TrimSpace(fresh.Title + ".\n" + fresh.Text)
	return fresh.refusing(tuning.Conflict, say, "")
}

// refusing is the one place that makes a refusing reply.
func (r Reply) refusing(kind tuning.Kind, say, ref string) Reply {
	r.Title = say
	r.Problem = &Trouble{Kind: kind, Say: say, Ref: ref}
	return r
}
