package store

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"testing"

	"github.com/lib/pq"
	"github.com/lib/pq/pqerror"

	"detent/tuning"
)

// What no test can bring a real server to say.
func TestProblem(t *testing.T) {
	said := func(code pqerror.Code) error { return fmt.Errorf("while asking: %w", &pq.Error{Code: code}) }
	for _, c := range []struct {
		name string
		err  error
		want tuning.Refusal
	}{
		{"standby", said(pqerror.ReadOnlySQLTransaction), tuning.ReadOnly},
		{"password", said(pqerror.InvalidPassword), tuning.WrongPassword},
		{"full", said(pqerror.TooManyConnections), tuning.NoConnection},
		{"shutdown", said(pqerror.AdminShutdown), tuning.Unreachable},
		{"cancelled", said(pqerror.QueryCanceled), tuning.GivenUp},
		{"encryption", pq.ErrSSLNotSupported, tuning.NotEncrypted},
		{"deadline", fmt.Errorf("asking: %w", context.DeadlineExceeded), tuning.GivenUp},
		{"unreachable", &net.OpError{Op: "dial", Err: context.DeadlineExceeded}, tuning.Unreachable},
		{"cut", io.ErrUnexpectedEOF, tuning.Unreachable},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := problem(c.err)
			got, _ := errors.AsType[tuning.Refusal](err)
			if got != c.want || !errors.Is(err, c.err) {
				t.Errorf("it is %v, want %v with its cause", err, c.want)
			}
		})
	}
	for _, err := range []error{nil, errors.New("the moon is full"), fmt.Errorf("trying: %w", tuning.NoName)} {
		if problem(err) != err {
			t.Errorf("%v does not come back as it is", err)
		}
	}
}
