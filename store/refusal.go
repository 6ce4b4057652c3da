package store

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"errors"
	"fmt"
	"io"
	"net"
	"syscall"

	"github.com/lib/pq"
	"github.com/lib/pq/pqerror"

	"detent/tuning"
)

// constraints are the refusals that the database's constraints stand for.
var constraints = map[string]tuning.Refusal{
	"cars_name":                 tuning.Taken{What: tuning.CarThing},
	"kept_settings_name":        tuning.Taken{What: tuning.KeptThing},
	"changes_undoes":            tuning.TakenBack,
	"changes_now":               tuning.ClocksApart,
	"clicks_in_range":           tuning.BeyondStop,
	"clicks_follow":             tuning.ClicksMoved,
	"curves_club_car_axle_fkey": tuning.AxleUnfitted,
	"searches_under_way":        tuning.SearchUnderWay,
}

// states are the refusals that the database's other complaints stand for, by
// their code.
var states = map[pqerror.Code]tuning.Refusal{
	pqerror.InvalidPassword:                   tuning.WrongPassword,
	pqerror.InvalidAuthorizationSpecification: tuning.WrongUser,
	pqerror.InvalidCatalogName:                tuning.NoDatabase,
	pqerror.InsufficientPrivilege:             tuning.NeedsRight,
	pqerror.TooManyConnections:                tuning.NoConnection,
	pqerror.DiskFull:                          tuning.DiskFull,
	pqerror.QueryCanceled:                     tuning.GivenUp,
	pqerror.ReadOnlySQLTransaction:            tuning.ReadOnly,
	pqerror.CharacterNotInRepertoire:          tuning.UnkeepableText,
	pqerror.UntranslatableCharacter:           tuning.UnkeepableText,
}

// problem turns an error of the database into the refusal that it is, with what
// the database said as its cause. It is the one place that does. A refusal, an
// error that is none, and nil it returns as they are.
func problem(err error) error {
	if err == nil {
		return nil
	}
	if _, told := errors.AsType[tuning.Refusal](err); told {
		return err
	}
	_, silent := errors.AsType[*net.OpError](err)
	switch {
	case errors.Is(err, errStandby) && !silent: // with others that do not answer, it is to take over from them
		return because(tuning.ReadOnly, err)
	case lost(err):
		return because(tuning.Unreachable, err)
	case errors.Is(err, context.DeadlineExceeded) || errors.Is(err, context.Canceled):
		return because(tuning.GivenUp, err)
	case errors.Is(err, pq.ErrSSLNotSupported):
		return because(tuning.NotEncrypted, err)
	}
	if e := pq.As(err); e != nil {
		for _, known := range []tuning.Refusal{constraints[e.Constraint], states[e.Code]} {
			if known != nil {
				return because(known, err)
			}
		}
	}
	return err
}

// because joins a refusal and its cause.
func because(refusal tuning.Refusal, cause error) error { return fmt.Errorf("%w: %w", refusal, cause) }

// none is problem for a query of one row: where there is no row it returns the
// refusal.
func none(err error, refusal tuning.Refusal) error {
	if errors.Is(err, sql.ErrNoRows) {
		return refusal
	}
	return problem(err)
}

// lost tells whether err means that the connection is gone or was never had.
func lost(err error) bool {
	if e := pq.As(err); e != nil {
		switch e.Code.Class() {
		case pqerror.ClassConnectionException:
			return true
		case pqerror.ClassOperatorIntervention:
			return e.Code != pqerror.QueryCanceled
		}
		return false
	}
	if _, ok := errors.AsType[*net.OpError](err); ok {
		return true
	}
	for _, end := range []error{errStandby, driver.ErrBadConn, sql.ErrConnDone, io.EOF, io.ErrUnexpectedEOF, net.ErrClosed, syscall.EPIPE, syscall.ECONNRESET} {
		if errors.Is(err, end) {
			return true
		}
	}
	return false
}
