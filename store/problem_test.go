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
		kind tuning.Kind
		say  string
	}{
		{"standby", said(pqerror.ReadOnlySQLTransaction), tuning.Internal,
			"The database can only be read: DETENT_DATABASE_URL must name one that can be written to, not a standby."},
		{"password", said(pqerror.InvalidPassword), tuning.Invalid, "The database refuses the user or the password in DETENT_DATABASE_URL."},
		{"full", said(pqerror.TooManyConnections), tuning.Internal, "The database has no connection left: try again in a moment."},
		{"shutdown", said(pqerror.AdminShutdown), tuning.Internal,
			"The database does not answer: see that it runs and that DETENT_DATABASE_URL names it."},
		{"cancelled", said(pqerror.QueryCanceled), tuning.Internal, "That took too long and was given up: try again."},
		{"encryption", pq.ErrSSLNotSupported, tuning.Invalid,
			"The database does not encrypt: if it runs on this machine, add ?sslmode=disable to DETENT_DATABASE_URL."},
		{"deadline", fmt.Errorf("asking: %w", context.DeadlineExceeded), tuning.Internal, "That took too long and was given up: try again."},
		{"unreachable", &net.OpError{Op: "dial", Err: context.DeadlineExceeded}, tuning.Internal,
			"The database does not answer: see that it runs and that DETENT_DATABASE_URL names it."},
		{"cut", io.ErrUnexpectedEOF, tuning.Internal, "The database does not answer: see that it runs and that DETENT_DATABASE_URL names it."},
		{"unheard of", errors.New("the moon is full"), tuning.Internal, "Something went wrong on our side and nothing was changed: try again."},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := problem(c.err)
			p, ok := err.(*tuning.Problem)
			if !ok || p.Kind != c.kind || p.Say != c.say || !errors.Is(err, c.err) {
				t.Errorf("it is %v, want %q %q with its cause", err, c.kind, c.say)
			}
		})
	}
	own := tuning.Problemf(tuning.Invalid, "No.")
	if problem(nil) != nil || problem(fmt.Errorf("trying: %w", own)) != error(own) {
		t.Error("nil and a Problem must come back as they are")
	}
}
