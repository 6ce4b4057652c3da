package bot

import (
	"errors"
	"fmt"

	"detent/bot/say"
	"detent/tuning"
)

// Problem is an error in a person's words: a kind, and a sentence that says what to
// do. Actions are buttons that answer or mend it. Err is the cause for the log; it
// is never shown.
type Problem struct {
	Kind    tuning.Kind
	Say     string
	Actions []Action
	Err     error
}

func (p *Problem) Error() string {
	if p.Err != nil {
		return fmt.Sprintf("%s: %s: %v", p.Kind, p.Say, p.Err)
	}
	return fmt.Sprintf("%s: %s", p.Kind, p.Say)
}

func (p *Problem) Unwrap() error { return p.Err }

// Refuses returns the kind.
func (p *Problem) Refuses() tuning.Kind { return p.Kind }

// Problemf makes a Problem whose sentence is formatted as by fmt.Sprintf.
func Problemf(kind tuning.Kind, format string, args ...any) *Problem {
	return &Problem{Kind: kind, Say: fmt.Sprintf(format, args...)}
}

// ProblemOf puts the refusal in err's chain into a member's words; ok is false
// where there is none. A fault of the record is told as ours to mend.
func ProblemOf(err error) (p *Problem, ok bool) {
	p, ok = problemOf(err, say.Refusal)
	if _, out := errors.AsType[tuning.Outage](err); ok && out {
		p.Kind = tuning.Internal
	}
	return p, ok
}

// OperatorProblemOf is ProblemOf for whoever runs the program.
func OperatorProblemOf(err error) (p *Problem, ok bool) { return problemOf(err, say.OperatorRefusal) }

func problemOf(err error, words func(tuning.Refusal) (string, bool)) (*Problem, bool) {
	if p, ok := errors.AsType[*Problem](err); ok {
		return p, true
	}
	refusal, ok := errors.AsType[tuning.Refusal](err)
	if !ok {
		return nil, false
	}
	sentence, ok := words(refusal)
	return &Problem{Kind: refusal.Refuses(), Say: sentence, Err: err}, ok
}
