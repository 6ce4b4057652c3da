package tuning

import (
	"errors"
	"fmt"
)

// Kind sorts what can go wrong by what the person can do about it.
type Kind string

// The kinds of problem.
const (
	Invalid   Kind = "invalid"   // the request says something that cannot be
	NotFound  Kind = "not-found" // it names something that is not there
	Forbidden Kind = "forbidden" // it is not this person's to ask
	Conflict  Kind = "conflict"  // the world has moved on since it was composed
	Limit     Kind = "limit"     // it is too much, too large or too often
	Internal  Kind = "internal"  // the fault is ours
)

// Problem is the one error a person gets to read: a kind, and a sentence that
// says what to do. Err is the cause for the log; it is never shown.
type Problem struct {
	Kind Kind
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
func (p *Problem) Refuses() Kind { return p.Kind }

// Problemf makes a Problem whose sentence is formatted as by fmt.Sprintf.
func Problemf(kind Kind, format string, args ...any) *Problem {
	return &Problem{Kind: kind, Say: fmt.Sprintf(format, args...)}
}

// Refusal is an error that a person can do something about.
type Refusal interface {
	error
	Refuses() Kind
}

// KindOf returns the kind of the Refusal in err's chain, Internal for any other
// error and "" for nil.
func KindOf(err error) Kind {
	if err == nil {
		return ""
	}
	if r, ok := errors.AsType[Refusal](err); ok {
		return r.Refuses()
	}
	return Internal
}
