package bot

import (
	"errors"
	"fmt"

	"detent/tuning"
)

// Problem is an error in a person's words: a kind, and a sentence that says
// what to do. Err is the cause for the log; it is never shown.
type Problem struct {
	Kind tuning.Kind
	Say  string
	Err  error
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

// ProblemOf puts the refusal in err's chain into words. ok is false for an
// error that is none.
func ProblemOf(err error) (p *Problem, ok bool) {
	if p, ok := errors.AsType[*Problem](err); ok {
		return p, true
	}
	if told, ok := errors.AsType[*tuning.Problem](err); ok {
		return &Problem{Kind: told.Kind, Say: told.Say, Err: err}, true
	}
	return nil, false
}
